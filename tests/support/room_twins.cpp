#include <string>

#include <toml++/toml.h>

#include "job/layout.hpp"
#include "job/read.hpp"
#include "support/random_room.hpp"
#include "support/toml_text.hpp"
#include "survey/closure.hpp"

namespace fallwright::sample {
namespace {

using toml::array, toml::table;

table tree_of(const std::string& job_file) {
  return toml::parse(job_file);
}

std::string other_hand(std::string word) {
  for (const auto& [from, to] : {std::pair{"left", "right"}, {"right", "left"}})
    if (const std::size_t found = word.find(from); found != std::string::npos)
      return word.replace(found, std::string{from}.size(), to);
  return word;
}

void turn_words(toml::node& node) {
  if (auto* word = node.as_string()) *word = other_hand(word->get());
  if (auto* list = node.as_array())
    for (toml::node& each : *list) turn_words(each);
}

void rename(table& in, const std::string& a, const std::string& b) {
  table swapped;
  for (const auto& [name, node] : in) {
    const std::string key{name.str()};
    node.visit([&](const auto& value) { swapped.insert(key == a ? b : key == b ? a : key, value); });
  }
  in = std::move(swapped);
}

void turn(toml::node_view<toml::node> length, double axis) {
  if (auto* number = length.as_floating_point()) *number = axis - number->get();
}

void turn_back_wall(toml::node_view<toml::node> entries, const char* place, double axis) {
  if (auto* list = entries.as_array())
    for (toml::node& entry : *list) {
      table& t = *entry.as_table();
      if (t["wall"].value<std::string>() == "back") turn(t[place], axis);
      turn_words(*t.get("wall"));
      if (t.contains("from")) turn_words(*t.get("from"));
    }
}

/// From one side wall to the other, in the file's unit, some way from the entry.
double width_at(const job::Layout& at, double unit, double y) {
  const survey::StudFaces faces = at.room.faces();
  return (faces.right.at(y * unit) - faces.left.at(y * unit)) / unit;
}

/// A tape is hooked on the left stud face beside each spot, in the mirror image on what is the right one here. Out of
/// square a grid's columns are none there, so all become single spots.
void turn_floor(table& floor, const job::Layout& at, double unit) {
  array all;
  if (auto* spots = floor["spots"].as_array())
    for (toml::node& spot : *spots) all.push_back(*spot.as_array());
  if (auto* xs = floor["grid_x"].as_array()) {
    const array &ys = *floor["grid_y"].as_array(), &rows = *floor["grid"].as_array();
    for (std::size_t row = 0; row < ys.size(); ++row)
      for (std::size_t i = 0; i < xs->size(); ++i)
        all.push_back(
            array{xs->get(i)->value_or(0.0), ys[row].value_or(0.0), (*rows[row].as_array())[i].value_or(0.0)});
    for (const char* key : {"grid_x", "grid_y", "grid"}) floor.erase(key);
  }
  for (toml::node& spot : all) {
    const toml::node_view<toml::node> read{spot};
    turn(read[0], width_at(at, unit, read[1].value_or(0.0)));
  }
  if (!all.empty()) floor.insert_or_assign("spots", std::move(all));
}

/// The tape is hooked on the left stud face: in the mirror image on what is the right one here, level with the bore or
/// with the hole.
void turn_joists(toml::node_view<toml::node> joists, const job::Layout& at, double unit) {
  const auto width = [&](double y) { return width_at(at, unit, y / unit); };
  if (joists["direction"].value<std::string>() == "along-depth") {
    const auto read = joists["first_at"].value<double>();
    turn(joists["first"], width(read ? *read * unit : at.drain_y));
  }
  if (auto* holes = joists["hole"].as_array())
    for (toml::node& each : *holes) {
      table& hole = *each.as_table();
      turn(hole["from_left"], width(at.room.depth - hole["from_back"].value_or(0.0) * unit));
    }
}

/// What was read on a bought base, and where the room's waste stands.
void turn_tape(table& job) {
  table& base = *job["base"].as_table();
  if (base.contains("hand")) turn_words(*base.get("hand"));
  for (const char* section : {"outside", "rim"})
    if (table* read = base[section].as_table()) {
      rename(*read, "left", "right");
      rename(*read, "diagonal_from_back_left", "diagonal_from_back_right");
      if (read->contains("height_at")) turn_words(*read->get("height_at"));
    }
  if (table* ribs = base["ribs"].as_table(); ribs && ribs->contains("deepest_at")) turn_words(*ribs->get("deepest_at"));
  rename(*job["drain"].as_table(), "waste_from_left", "waste_from_right");
}

void scale(toml::node& node, double by) {
  if (auto* number = node.as_floating_point()) *number = number->get() * by;
  if (auto* list = node.as_array())
    for (toml::node& each : *list) scale(each, by);
  if (auto* tree = node.as_table())
    for (auto&& [name, each] : *tree) scale(each, by);
}

}  // namespace

double mirror_axis_mm(const std::string& job_file) {
  const job::Job job = job::read(job_file, "random.toml");
  const survey::Closure closure = survey::close(job.survey);
  return closure.solved ? closure.figure.back_right.x : job.alcove.width.in_mm();
}

std::string mirrored(const std::string& job_file) {
  table job = tree_of(job_file);
  const double unit = job["job"]["unit"].value<std::string>() == "in" ? 25.4 : 1;
  const double axis = mirror_axis_mm(job_file) / unit;
  const job::Layout at = job::lay_out(job::read(job_file, "random.toml"));
  if (job["alcove"]["walls"]) turn_words(*job["alcove"]["walls"].node());
  if (auto* survey = job["survey"].as_table()) {
    if (auto* plan = (*survey)["plan"].as_table()) {
      rename(*plan, "left", "right");
      rename(*plan, "diagonal_from_back_left", "diagonal_from_back_right");
    }
    turn_back_wall((*survey)["plumb"], "along", axis);
    turn_back_wall((*survey)["studs"], "", axis);
    if (auto* floor = (*survey)["floor"].as_table()) turn_floor(*floor, at, unit);
  }
  turn_back_wall(job["fixture"], "along", axis);
  turn_joists(job["floor"]["joists"], at, unit);
  turn(job["floor"]["drop_along_width"], 0);
  if (job["base"]["against"]) turn_words(*job["base"]["against"].node());
  if (job["base"]["upstands"]["sides"]) turn_words(*job["base"]["upstands"]["sides"].node());
  if (job["base"]["upstands"]["lapped"]) turn_words(*job["base"]["upstands"]["lapped"].node());
  turn_tape(job);
  rename(*job["drain"].as_table(), "from_left", "from_right");
  if (job["bench"]) turn_words(*job["bench"]["place"].node());
  if (job["trap"]["to"]) turn_words(*job["trap"]["to"].node());
  if (auto* bends = job["trap"]["bend"].as_array())
    for (toml::node& bend : *bends)
      if (auto* to = bend.as_table()->get("to")) turn_words(*to);
  if (auto* set = job["as_set"].as_table())
    for (const char* on : {"", "upstands", "threshold"})
      if (table* places = *on == '\0' ? set : (*set)[on].as_table())
        for (const char* left : {"left", "back_left", "front_left"}) rename(*places, left, other_hand(left));
  return text_of(job);
}

std::string with_first_joist_placed(const std::string& job_file) {
  table job = tree_of(job_file);
  const double unit = job["job"]["unit"].value<std::string>() == "in" ? 25.4 : 1;
  table* joists = job["floor"]["joists"].as_table();
  if (joists && joists->contains("first") && (*joists)["direction"].value<std::string>() == "along-depth")
    joists->insert("first_at", job::lay_out(job::read(job_file, "random.toml")).drain_y / unit);
  return text_of(job);
}

std::string without_tape(const std::string& job_file) {
  table job = tree_of(job_file);
  job["cuts"].as_table()->insert_or_assign("rounding", "exact");
  if (job["base"]["kind"].value_or(std::string{}) != "site-built")
    job["bed"].as_table()->insert("gauge_depth", 1.25);  // where it has none
  return text_of(job);
}

std::string in_millimetres(const std::string& job_file) {
  table job = tree_of(job_file);
  scale(job, 25.4);
  job["job"].as_table()->insert_or_assign("unit", "mm");
  return text_of(job);
}

std::string renamed(const std::string& job_file) {
  table job = tree_of(job_file);
  job["job"].as_table()->insert_or_assign("name", "another name, of another length");
  job["base"].as_table()->insert_or_assign("material", "another material");
  if (auto* fixtures = job["fixture"].as_array())
    for (toml::node& fixture : *fixtures) {
      table& t = *fixture.as_table();
      t.insert_or_assign("name", "other " + t["name"].value_or(std::string{}));
    }
  return text_of(job);
}

std::string with_lower_line(const std::string& job_file, double by) {
  table job = tree_of(job_file);
  const auto down = [](const toml::node_view<toml::node>& of) {
    return of["heights"].value_or(std::string{"up"}) == "down";
  };
  const auto raise = [](toml::node& number, double change) {
    if (auto* v = number.as_floating_point()) *v = v->get() + change;
  };
  const double spots_by = down(job["survey"]) ? -by : by, rim_by = down(job["as_set"]) ? -by : by;
  if (auto* spots = job["survey"]["floor"]["spots"].as_array())
    for (toml::node& spot : *spots) raise((*spot.as_array())[2], spots_by);
  if (auto* rows = job["survey"]["floor"]["grid"].as_array())
    for (toml::node& row : *rows)
      for (toml::node& height : *row.as_array()) raise(height, spots_by);
  if (auto* set = job["as_set"].as_table())
    for (auto&& [name, reading] : *set) {
      raise(reading, name.str() == "line" ? -by : rim_by);
      if (table* places = reading.as_table())
        for (auto&& [place, each] : *places) raise(each, rim_by);
    }
  return text_of(job);
}

std::string with_more(const std::string& job_file, const std::string& key, double by) {
  table job = tree_of(job_file);
  auto* length = job.at_path(key).as_floating_point();
  *length = length->get() + by;
  return text_of(job);
}

std::string with_line(const std::string& job_file, const std::string& key, const std::string& value,
                      std::size_t entry) {
  table job = tree_of(job_file);
  table* at = &job;
  std::string name = key;
  for (auto dot = name.find('.'); dot != std::string::npos; dot = name.find('.')) {
    const std::string section = name.substr(0, dot);
    name = name.substr(dot + 1);
    if (!at->contains(section)) at->insert(section, table{});
    array* entries = (*at)[section].as_array();
    at = entries ? entries->get(entry)->as_table() : (*at)[section].as_table();
  }
  at->erase(name);
  if (!value.empty()) at->insert_or_assign(name, std::move(*tree_of("v = " + value).get("v")));
  return text_of(job);
}

}  // namespace fallwright::sample
