#include "work/network.hpp"

#include "reckon/topic.hpp"

namespace awlmark::reckon::network_topic {

// Written as the id alone, or as {"id", "lag"}.
struct After {
  std::string id;
  double lag = 0;
};

}  // namespace awlmark::reckon::network_topic

namespace awlmark::doc {

template <>
struct Custom<reckon::network_topic::After> {
  static void read(const Json& json, const std::string& at, reckon::network_topic::After& value, Problems& problems) {
    if (json.is_string()) {
      value.id = json.get<std::string>();
      return;
    }
    if (!json.is_object()) return wrong_kind(json, at, "the id of a task, or an object with id and lag", problems);
    bool named = false;
    for (const auto& [key, one] : json.items()) {
      if (key == "id" || key == "after") {
        if (one.is_string())
          value.id = one.get<std::string>();
        else
          wrong_kind(one, join(at, key), "the id of a task", problems);
        named = true;
      } else if (key == "lag") {
        if (one.is_number())
          value.lag = one.get<double>();
        else
          wrong_kind(one, join(at, key), "a number", problems);
      } else {
        unknown_key(key, at, {"id", "lag"}, problems);
      }
    }
    if (!named) problems.push_back({join(at, "id"), "is missing", "name the task that comes before"});
  }
  static Json write(const reckon::network_topic::After& value) { return value.lag == 0 ? Json(value.id) : Json{{"id", value.id}, {"lag", value.lag}}; }
  static Json schema(SchemaBuilder&) {
    return {
        {"anyOf",
         Json::array({{{"type", "string"}},
                      {{"type", "object"}, {"properties", {{"id", {{"type", "string"}}}, {"lag", {{"type", "number"}}}}}, {"required", Json::array({"id"})}}})},
        {"description", "a task that comes before, by id; with a wait: {\"id\", \"lag\"}"}};
  }
};

}  // namespace awlmark::doc

namespace awlmark::reckon {
namespace network_topic {

struct TaskIn {
  double duration = 0;
  std::vector<After> after;
};
BOOST_DESCRIBE_STRUCT(TaskIn, (), (duration, after))

doc::FieldRules field_rules(const TaskIn*) {
  return {{.name = "duration", .text = "in any one unit of time", .required = true, .min = 0, .max = 1e9}, {.name = "after", .text = "ids, or {id, lag}"}};
}

struct NetworkIn {
  std::map<std::string, TaskIn> tasks;
};
BOOST_DESCRIBE_STRUCT(NetworkIn, (), (tasks))

doc::FieldRules field_rules(const NetworkIn*) { return {{.name = "tasks", .text = "by id", .required = true, .min_items = 1, .max_items = 2000}}; }

struct TaskOut {
  double early_start = 0;
  double early_finish = 0;
  double late_start = 0;
  double late_finish = 0;
  double total_float = 0;
  double free_float = 0;
};
BOOST_DESCRIBE_STRUCT(TaskOut, (), (early_start, early_finish, late_start, late_finish, total_float, free_float))

struct NetworkOut {
  double duration = 0;
  std::map<std::string, TaskOut> tasks;
  std::vector<std::string> critical;
  Reason reason;
};
BOOST_DESCRIBE_STRUCT(NetworkOut, (), (duration, tasks, critical, reason))

doc::FieldRules field_rules(const NetworkOut*) { return {{.name = "critical", .text = "tasks without total float, by early start"}}; }

Outcome<NetworkOut> answer(const NetworkIn& in) {
  std::vector<work::NetworkTask> tasks;
  for (const auto& [id, task] : in.tasks) {
    work::NetworkTask one;
    one.id = id;
    one.duration = task.duration;
    for (const auto& after : task.after) one.after.push_back({after.id, after.lag});
    tasks.push_back(std::move(one));
  }
  const auto times = work::network(tasks);
  if (!times) return refused<NetworkOut>(times.problems);
  NetworkOut out;
  out.duration = times.value->duration;
  for (const auto& t : times.value->tasks) out.tasks[t.id] = {t.early_start, t.early_finish, t.late_start, t.late_finish, t.total_float, t.free_float};
  out.critical = times.value->critical;
  out.reason.compares = "early against late times of every task";
  out.reason.rule = "forward and backward pass with lags; critical where total float is 0";
  out.reason.source = "critical path method, Kelley and Walker";
  out.reason.edition = "1959";
  out.reason.status = SourceStatus::memory;
  return answered(std::move(out));
}

}  // namespace network_topic

Topic network() {
  using namespace network_topic;
  return make_topic<NetworkIn, NetworkOut>(
      {.id = "network",
       .asks = "How long do these tasks take together, and which of them set the end?",
       .sources = {"Critical path method (Kelley and Walker, 1959)"},
       .example =
           R"({"tasks": {"demolition": {"duration": 1.5}, "dry": {"duration": 0, "after": [{"id": "demolition", "lag": 2}]}, "frame": {"duration": 1.5, "after": ["dry"]}}})"},
      answer);
}

}  // namespace awlmark::reckon
