"""The rooms of the engine stand one above the other: each includes only rooms that CMakeLists.txt names for it, all of
them listed above it. Run from anywhere; prints every arrow that runs up or sideways."""
import pathlib
import re
import sys

root = pathlib.Path(__file__).resolve().parents[2]
allowed, order = {}, []
for line in (root / "CMakeLists.txt").read_text().splitlines():
    room = re.match(r"\s*add_room\((.*)\)", line)
    if room:
        name, *below = room.group(1).split()
        wrong = [other for other in below if other not in order]
        assert not wrong, f"{name} names {wrong}, which stand above it or nowhere"
        allowed[name] = set(below) | {name}
        order.append(name)
arrows = []
for source in sorted((root / "engine").glob("**/*.?pp")):
    room = source.relative_to(root / "engine").parts[0]
    assert room in allowed, f"engine/{room} is no room of CMakeLists.txt"
    for other in re.findall(r'^#include "([a-z_]+)/', source.read_text(), re.M):
        if other in allowed and other not in allowed[room]:
            arrows.append(f"{source.relative_to(root)} includes {other}/, which {room} does not name")
for arrow in arrows:
    print(arrow)
sys.exit(1 if arrows else 0)
