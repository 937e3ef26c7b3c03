"""Checks that findings carry the keys that outside programs rely on (docs/job-document.md)."""
import json
import sys

d = json.load(open(sys.argv[1]))
survey = d["survey"]
grid = survey["grid"]
cells = grid["nx"] * grid["ny"]
assert {"cell_in", "nx", "ny", "origin_in"} <= grid.keys()
for layer in survey["layers"]:
    for key in ("p_unsound", "p_gone", "p_wet"):
        assert len(layer[key]) == cells, (layer["layer"], key)
        assert all(p is None or -1e-12 <= p <= 1 + 1e-12 for p in layer[key])
for area in survey["unsound_sf"].values():
    assert area["p10"] <= area["p50"] <= area["p90"]
for opening in survey["next_openings"]:
    assert len(opening["at_in"]) == 2 and opening["why"] and {"worth", "cost"} <= opening.keys()
    assert opening["act"] in ("open", "probe_again", "look", "sweep", "sample", "strip") and opening["from"] in ("above", "below", "side")
    assert opening["at_in"] in opening["probes_in"] and isinstance(opening["gates"], list) and opening["cost"] > 0
    if opening["act"] != "sample":
        assert not set(opening["pierces"]) & set(d["hazards"]["presumed_layers"])
assert isinstance(survey["stop"], bool) and isinstance(survey["holds"], list)
for gate in d["hazards"]["gates"]:
    assert gate["id"] and gate["text"] and gate["before"] in ("touching", "entering", "opening", "lifting", "cutting", "drying", "covering", "finishing")
    assert {"compares", "rule", "source", "edition", "status"} <= gate["reason"].keys()
    assert gate["reason"]["source"], gate["id"]
assert {"pieces", "area_sf", "edges"} <= d["cut_back"].keys()
assert all(edge["why"] for edge in d["cut_back"]["edges"])
for check in d["floor"]["as_found"]["checks"]:
    assert {"id", "demand", "capacity", "ratio", "ok", "reason"} <= check.keys()
    assert check["ok"] == (check["ratio"] <= 1 + 1e-9), check["id"]
    assert check["reason"]["source"], check["id"]
assert d["floor"]["options"], "no way to rebuild"
for option in d["floor"]["options"]:
    assert option["id"] and isinstance(option["ok"], bool) and option["checks"]
    assert option["verdict"] in ("passes", "ask", "engineer", "fails")
    assert option["ok"] == (option["verdict"] != "fails"), option["id"]
    holds = lambda check: check["ok"] or check["state"] == "stands"
    assert option["verdict"] != "passes" or all(holds(check) for check in option["checks"]), option["id"]
    applied, carried = option["balance"]["applied_lb"], option["balance"]["carried_lb"]
    assert not option["ok"] or abs(applied - carried) <= 0.01 * applied, option["id"]
    assert isinstance(option["needs_engineer"], bool) and option["cost"] >= 0
    for check in option["checks"]:
        assert check["member"] and check["kind"] and check.get("case", "low") in ("low", "high")
    for line in option["framing"]:
        assert line["size"] and line["b_in"] > 0 and line["d_in"] > 0 and line["kind"]
assert any(option["id"] == d["floor"]["chosen"] for option in d["floor"]["options"])
assert isinstance(d["floor"]["as_found"]["ok"], bool) and d["floor"]["as_found"]["balance"]["applied_lb"] > 0
assert isinstance(d["floor"]["holds"], list)
if "shower" in d:
    shower = d["shower"]
    assert shower["chosen"] in [answer["id"] for answer in shower["answers"]]
    for answer in shower["answers"]:
        for stack in answer["stacks"]:
            assert abs(sum(part["thickness_in"] for part in stack["parts"]) - stack["top_in"]) < 1e-9, (answer["id"], stack["at"])
        assert {"step_at_door_in", "step_at_entry_in"} <= answer.keys()
    assert {"edge_height_in", "steepest_in_per_ft", "flattest_in_per_ft", "bed_volume_ft3"} <= shower["pan"].keys()
    assert {"ok", "length_ft", "total_fall_in", "crosses"} <= shower["drain_run"].keys()
    assert {"depth_in", "volume_gal", "weight_lb", "hours"} <= shower["flood_test"].keys() and shower["flood_test"]["hours"] >= 24
    assert isinstance(shower["conflicts"], list)
if "drying" in d:
    assert d["drying"]["layers"] and d["drying"]["words"]
    for layer in d["drying"]["layers"]:
        assert {"layer", "limit_percent", "now_percent"} <= layer.keys()
        assert "close_p90" not in layer or layer["close_p50"] <= layer["close_p90"]
for line in d["takeoff"]["lines"]:
    assert {"item", "quantity", "unit"} <= line.keys() and line["quantity"] >= 0
for task in d["work"]["tasks"]:
    assert task["hours"]["low"] <= task["hours"]["likely"] <= task["hours"]["high"], task["id"]
assert d["work"]["finish"]["p50"] <= d["work"]["finish"]["p80"]
finish = d["work"]["finish"]
assert finish["p50"] <= finish["p80"] <= finish["p90"] and finish["p50_days"] <= finish["p80_days"] <= finish["p90_days"]
assert d["work"]["drivers"] and all(0 <= one["on_path"] <= 1 + 1e-9 for one in d["work"]["drivers"])
price = d["price"]
assert 0 < price["p10"] <= price["p50"] <= price["p80"] <= price["p90"]
assert 0 <= price["from_floor_share"] <= 1
assert 0 < price["base"] <= price["cap"] and price["base_quantities"] and price["not_included"]
assert all(unit["item"] and unit["unit"] and unit["price"] > 0 for unit in price["unit_prices"]) and price["unit_prices"]
assert abs(sum(price["spread"].values()) - 1) < 1e-9 and {"floor", "laboratory", "hours", "prices", "waits"} <= price["spread"].keys()
chances = {}
for branch in price["branches"]:
    assert branch["p10"] <= branch["p50"] <= branch["p80"] <= branch["p90"], branch["id"]
    group = branch["id"].rsplit(".", 1)[0]
    chances[group] = chances.get(group, 0) + branch["chance"]
assert all(abs(sum_ - 1) < 1e-9 for sum_ in chances.values()), chances
assert not any(good["kind"] == "other" for option in d["floor"]["options"] for good in option["goods"])
assert len(d["cut_back"]["quantities"]["layer_sf"]) == len(d["survey"]["layers"]) or d["cut_back"]["quantities"]["layer_sf"]
assert d["cautions"]
assert all(guess["id"] and guess["words"] for guess in d.get("assumed", []))
guesses = [guess["words"] for guess in d["assumed"]]
assert len(guesses) == len(set(guesses)), "a guess is told twice"
assert set(d["floor"]["as_found"]["assumed"]) <= set(guesses), "a guess of the floor is not among all of them"
