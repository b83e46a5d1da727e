#include "rules/rule_book.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>

#include "diag/fault.hpp"
#include "job/pipe.hpp"
#include "job/toml.hpp"
#include "rules/book.hpp"
#include "units/fall.hpp"
#include "units/length.hpp"
#include "units/quantity.hpp"

namespace fallwright::rules {
namespace {

struct Embedded {
  const char *name, *text;
};
const Embedded embedded[] = {
#include "books.inc"
};

constexpr std::pair<const char*, Unit> unit_words[] = {
    {"length", Unit::mm},   {"fall", Unit::ratio},  {"area", Unit::mm2}, {"volume", Unit::mm3},
    {"count", Unit::count}, {"share", Unit::share}, {"span", Unit::span}};
constexpr Verified all_verified[] = {Verified::quoted, Verified::secondary, Verified::from_memory,
                                     Verified::common_practice, Verified::user};

class BookReader {
 public:
  BookReader(std::string_view text, const std::string& file, bool compiled_in)
      : file_{file}, check_bounds_{!compiled_in}, table_{job::parse_toml(text, file_, faults_)} {}

  RuleBook read() {
    stop_if_faulty();
    RuleBook book{file_, table_["title"].value_or(std::string{}), {}};
    for (const auto& [name, node] : table_)
      if (name != "title" && name != "limit" && (check_bounds_ || !is_of_compiled_in(name.str())))
        fault(name.source().begin, job::quoted_start(name.str()), "a rule book has 'title' and [[limit]] only");
    if (!check_bounds_) read_base(book);
    const toml::array* rows = table_["limit"].as_array();
    if (!rows || !rows->is_homogeneous(toml::node_type::table))
      fault({1, 1}, "limit", "a rule book needs [[limit]] rows");
    stop_if_faulty();
    for (const toml::node& node : *rows) {
      BookRow row = read_row(*node.as_table());
      if (!row.id.empty() && !book.rows.emplace(row.id, row).second)
        fault(node.source().begin, row.id, "has a row already");
    }
    stop_if_faulty();
    return book;
  }

 private:
  /// What a compiled-in book may say beside its rows: the book it rests on, what it leaves out of that, its flood test.
  static bool is_of_compiled_in(std::string_view name) {
    return name == "rests_on" || name == "without" || name == "flood_test" || name == "flood_minutes" ||
           name == "flood_to_threshold" || name == "imposed";
  }
  void read_base(RuleBook& book) {
    book.rests_on = table_["rests_on"].value_or(std::string{});
    book.flood_test = {table_["flood_test"].value_or(std::string{}), table_["flood_minutes"].value_or(0),
                       table_["flood_to_threshold"].value_or(false)};
    const auto imposed = table_["imposed"];
    const auto number = [&](const char* key) { return imposed[key].value_or(0.0); };
    const auto words = [&](const char* key) { return imposed[key].value_or(std::string{}); };
    book.imposed = {number("person_n"),
                    number("patch_mm"),
                    number("floor_kpa"),
                    imposed["rated_panels"].value_or(true),
                    imposed["alone_on_joist"].value_or(false),
                    number("push_lbf"),
                    words("person"),
                    words("floor"),
                    words("source")};
    if (const toml::table* without = table_["without"].as_table())
      for (const auto& [id, why] : *without) book.without.emplace(std::string{id.str()}, why.value_or(std::string{}));
  }

  void fault(const toml::source_position& at, const std::string& key, const std::string& message) {
    faults_.push_back({file_, at.line, at.column, key, message});
  }
  void stop_if_faulty() { job::stop_if_faulty(faults_); }

  std::string text(const toml::table& row, const char* key, bool needed) {
    const toml::node* node = row.get(key);
    if (!node && needed) fault(row.source().begin, key, "is missing in this row");
    if (!node) return "";
    const auto text = node->value_exact<std::string>();
    if (!text) fault(node->source().begin, key, "wanted a text in quotes");
    if (const std::string why = job::fault_of_text(text.value_or("")); !why.empty())
      fault(node->source().begin, key, why);
    return text.value_or("");
  }

  BookRow read_row(const toml::table& table) {
    const std::size_t before = faults_.size();
    BookRow row;
    row.id = text(table, "id", true);
    row.title = text(table, "title", false);
    row.edition = text(table, "edition", false);
    row.limit.unit = unit_of(table);
    row.limit.least = bound(table, "least", row.limit.unit);
    row.limit.greatest = bound(table, "greatest", row.limit.unit);
    row.limit.by_pipe = by_pipe(table, row.limit);
    read_ways_out(table, row);
    row.limit.source = text(table, "source", true);
    if (!row.edition.empty()) row.limit.source += " (" + row.edition + ")";
    row.limit.verified = verified_of(table);
    const std::string breaks = text(table, "breaks", false);
    if (!breaks.empty() && breaks != "fail" && breaks != "caution")
      fault(table.get("breaks")->source().begin, "breaks", "found '" + breaks + "'; allowed is fail or caution");
    row.limit.by_calculation = !check_bounds_ && table["by_calculation"].value_or(false);
    row.limit.when_broken = breaks == "caution" ? Outcome::caution : Outcome::fail;
    static const std::set<std::string> known{
        "id",       "title",        "unit",     "least",  "least_by_pipe",    "greatest",
        "source",   "edition",      "verified", "breaks", "greatest_by_pipe", "exempt",
        "or_least", "to_centreline"};
    for (const auto& [name, node] : table)
      if (!known.count(std::string{name.str()}) && (check_bounds_ || name.str() != "by_calculation"))
        fault(name.source().begin, job::quoted_start(name.str()), "no such key in a row of a rule book");
    if (!row.id.empty()) suits_its_rule(table, row, faults_.size() > before);
    return row;
  }

  /// Whom a limit is not asked of, and a smaller one that will do: { short = "30 in", long = "60 in", source = "..." }
  /// and { least = "25 in", area = "1300 in2" }, of the checks that know what to make of it.
  void read_ways_out(const toml::table& table, BookRow& row) {
    if (const toml::table* of =
            part_of(table, "exempt", row.id, {"clear.area", "clear.circle"}, {"short", "long", "source"}))
      row.limit.exempt = {needed(*of, "short", Unit::mm), needed(*of, "long", Unit::mm), text(*of, "source", true)};
    if (const toml::table* of = part_of(table, "or_least", row.id, {"clear.width"}, {"least", "area"}))
      row.limit.second_way = {needed(*of, "least", Unit::mm), needed(*of, "area", Unit::mm2)};
    if (const toml::node* node = table.get("to_centreline")) {
      const auto& at = node->source().begin;
      if (row.id != "clear.area" && row.id != "clear.circle")
        fault(at, "to_centreline", "'" + row.id + "' is measured in one way");
      else if (!node->is_boolean())
        fault(at, "to_centreline", "wanted true or false");
      row.limit.to_centreline = node->value_or(false);
    }
  }

  const toml::table* part_of(const toml::table& row, const char* key, const std::string& id,
                             const std::set<std::string>& checks, const std::set<std::string>& known) {
    const toml::node* node = row.get(key);
    if (!node) return nullptr;
    const auto& at = node->source().begin;
    if (!checks.count(id)) return fault(at, key, "'" + id + "' is held to its limit in every room"), nullptr;
    if (!node->is_table()) return fault(at, key, "wanted a table in braces"), nullptr;
    for (const auto& [name, value] : *node->as_table())
      if (!known.count(std::string{name.str()}))
        fault(name.source().begin, job::quoted_start(name.str()), std::string{"no such key in '"} + key + "'");
    return node->as_table();
  }

  double needed(const toml::table& table, const char* key, Unit unit) {
    if (!table.get(key)) fault(table.source().begin, key, "is missing in this row");
    const auto value = bound(table, key, unit);
    if (value && *value <= 0) fault(table.get(key)->source().begin, key, "must be more than nothing");
    return value.value_or(0);
  }

  /// A limit that the check does not know how to hold would be read as another.
  void suits_its_rule(const toml::table& table, const BookRow& row, bool faulty) {
    const auto rule =
        std::find_if(all_rules().begin(), all_rules().end(), [&](const Rule& r) { return r.id == row.id; });
    if (rule == all_rules().end())
      return fault(table.get("id")->source().begin, "id", "there is no check '" + row.id + "'; see 'fallwright rules'");
    if (!rule->limit_of.empty())
      return fault(table.get("id")->source().begin, "id",
                   "'" + row.id + "' is held to the limit of '" + rule->limit_of + "'; give that one");
    if (faulty) return;  // what was not understood is not held against anything
    if (row.limit.unit != rule->unit)
      fault(table.get("unit")->source().begin, "unit",
            "found '" + word_of(row.limit.unit) + "'; '" + row.id + "' is a " + word_of(rule->unit));
    if (row.limit.least && row.limit.greatest && *row.limit.least > *row.limit.greatest)
      fault(table.get("least")->source().begin, "least", "is more than 'greatest'");
    if (row.limit.source.empty())
      fault(table.get("source")->source().begin, "source", "is empty: say where it is from");
    if (check_bounds_) same_bounds(table, row);
  }

  /// A check reads certain bounds: those its rows in the compiled-in books have.
  void same_bounds(const toml::table& table, const BookRow& row) {
    bool least = false, greatest = false;
    for (const Embedded& e : embedded)
      if (const BookRow* known = book(e.name).find(row.id))
        least = least || known->limit.has_least(), greatest = greatest || known->limit.has_greatest();
    if (!least && !greatest) {  // the job itself sets these; a row may be stricter, either way
      if (!row.limit.has_least() && !row.limit.has_greatest())
        fault(table.source().begin, "least", "is missing: no limit is given");
      return;
    }
    for (const auto& [key, given, wanted] :
         {std::tuple{"least", row.limit.has_least(), least}, {"greatest", row.limit.has_greatest(), greatest}}) {
      if (given && !wanted) fault(table.source().begin, key, "'" + row.id + "' has no such bound");
      if (!given && wanted && !(least && greatest && (row.limit.has_least() || row.limit.has_greatest())))
        fault(table.source().begin, key, "is missing: '" + row.id + "' is held to it");
    }
  }

  static std::string word_of(Unit unit) {
    for (const auto& [name, known] : unit_words)
      if (known == unit) return name;
    return "";
  }

  Unit unit_of(const toml::table& table) {
    const std::string word = text(table, "unit", true);
    for (const auto& [name, unit] : unit_words)
      if (word == name) return unit;
    if (!word.empty())
      fault(table.get("unit")->source().begin, "unit",
            "found '" + word + "'; allowed is length, fall, span, area, volume, count, share");
    return Unit::mm;
  }

  Verified verified_of(const toml::table& table) {
    const std::string word = text(table, "verified", true);
    for (const Verified v : all_verified)
      if (word == name_of(v)) return v;
    if (!word.empty())
      fault(table.get("verified")->source().begin, "verified",
            "found '" + word +
                "'; allowed is quoted, secondary, from memory, 'common practice, no source' or 'set by the user'");
    return Verified::user;
  }

  std::optional<double> bound(const toml::table& table, const char* key, Unit unit) {
    const std::string words = text(table, key, false);
    if (words.empty()) return std::nullopt;
    std::string why;
    std::optional<double> value;
    if (unit == Unit::mm) value = length(words, why);
    if (unit == Unit::ratio || unit == Unit::span)
      if (const auto fall = units::parse_fall(words, why)) value = fall->as_ratio();
    if (unit == Unit::mm2) value = units::parse_area_mm2(words, why);
    if (unit == Unit::share) value = units::parse_share(words, why);
    if (unit == Unit::mm3) value = words == "0" ? 0 : units::parse_volume_mm3(words, why);
    if (unit == Unit::count) value = count(words, why);
    if (value && !(std::abs(*value) <= beyond_any)) value.reset(), why = "no limit is that large";
    if (!value) fault(table.get(key)->source().begin, key, "found '" + job::quoted_start(words) + "': " + why);
    return value;
  }

  /// Tables of a bound by the pipe's nominal size: { "2 in" = "8 ft" }.
  std::vector<ByPipe> by_pipe(const toml::table& table, const Limit& limit) {
    std::vector<ByPipe> rows;
    for (const auto& [key, plain, bound_of] : {std::tuple{"least_by_pipe", limit.least, &ByPipe::least},
                                               {"greatest_by_pipe", limit.greatest, &ByPipe::greatest}}) {
      const toml::node* node = table.get(key);
      if (!node) continue;
      if (!node->is_table()) fault(node->source().begin, key, "wanted a table like { \"2 in\" = \"8 ft\" }");
      if (plain) fault(node->source().begin, key, "stands beside a bound for all pipes; give one of them");
      for (const auto& [size, value] : node->is_table() ? *node->as_table() : toml::table{}) {
        std::string why;
        const auto nominal = length(std::string{size.str()}, why);
        const job::Pipe* pipe = nominal ? job::pipe_of(units::Length::mm(*nominal)) : nullptr;
        if (!pipe) fault(size.source().begin, job::quoted_start(size.str()), "no drain pipe is sold by that size");
        const std::optional<double> bounded = bound(*node->as_table(), size.data(), limit.unit);
        if (pipe) row_for(*pipe, rows).*bound_of = bounded;
      }
    }
    std::sort(rows.begin(), rows.end(), [](const ByPipe& a, const ByPipe& b) { return a.nominal_mm < b.nominal_mm; });
    return rows;
  }

  static ByPipe& row_for(const job::Pipe& pipe, std::vector<ByPipe>& rows) {
    for (ByPipe& row : rows)
      if (row.nominal_mm == pipe.nominal_mm) return row;
    rows.push_back({pipe.nominal_mm, {}, {}});
    return rows.back();
  }

  /// A book stands by itself: no job says which unit a bare number has. Zero needs none.
  static std::optional<double> length(const std::string& words, std::string& why) {
    const auto inches = units::parse_length(words, units::LengthUnit::inch, why),
               bare = units::parse_length(words, units::LengthUnit::mm, why);
    if (!inches || !bare) return std::nullopt;
    if (inches->in_mm() == bare->in_mm()) return inches->in_mm();
    why = "a length in a rule book needs its unit, like '1/2 in' or '12 mm'";
    return std::nullopt;
  }

  /// In millimetres, square or cubic ones, or none: what is still counted in marks of a rule.
  static constexpr double beyond_any = 1e12;

  static std::optional<double> count(const std::string& words, std::string& why) {
    if (!words.empty() && words.find_first_not_of("0123456789") == std::string::npos)
      return std::strtod(words.c_str(), nullptr);
    why = "a count is a whole number";
    return std::nullopt;
  }

  std::string file_;
  bool check_bounds_;  ///< of a user's rows; the compiled-in ones are what they are held against
  std::vector<diag::Fault> faults_;
  toml::table table_;
};

}  // namespace

const BookRow* RuleBook::find(const std::string& id) const {
  const auto it = rows.find(id);
  return it == rows.end() ? nullptr : &it->second;
}

RuleBook read_book(std::string_view text, const std::string& file) {
  return BookReader{text, file, false}.read();
}

const std::vector<std::string>& book_names() {
  static const std::vector<std::string> names{"residential",        "building", "plumbing", "accessible",
                                              "accessible-roll-in", "metric",   "european"};
  return names;
}

const RuleBook& book(const std::string& name) {
  static const std::map<std::string, RuleBook> books = [] {
    std::map<std::string, RuleBook> all;
    for (const Embedded& e : embedded) all.emplace(e.name, BookReader{e.text, e.name, true}.read());
    return all;
  }();
  const auto it = books.find(name);
  diag::ensure(it != books.end(), "a rule book that is not compiled in");
  return it->second;
}

RowOf row_under(const std::string& name, const std::string& id) {
  for (std::string at = name; !at.empty(); at = book(at).rests_on) {
    const RuleBook& own = book(at);
    if (const BookRow* row = own.find(id)) return {row, at, ""};
    if (const auto it = own.without.find(id); it != own.without.end()) return {nullptr, "", it->second};
  }
  return {book("common").find(id), "common", ""};
}

namespace {

/// The first book that says something, of the one named and those it rests on; what none says is as in `common`.
template <class Says>
const RuleBook& who_says(const std::string& name, Says says) {
  for (std::string at = name; !at.empty(); at = book(at).rests_on)
    if (says(book(at))) return book(at);
  return book("common");
}

}  // namespace

const FloodTest& flood_test_of(const std::string& name) {
  return who_says(name, [](const RuleBook& b) { return !b.flood_test.words.empty(); }).flood_test;
}

const Imposed& imposed_of(const std::string& name) {
  return who_says(name, [](const RuleBook& b) { return b.imposed.person_n > 0; }).imposed;
}

double push_lbf_under(const std::string& name) {
  return who_says(name, [](const RuleBook& b) { return b.imposed.push_lbf > 0; }).imposed.push_lbf;
}

double Imposed::said_kg() const {
  return std::floor(person_n) / units::n_per_kg;
}

bool is_metric_book(const std::string& name) {
  return book(name).rests_on == "millimetres";
}

}  // namespace fallwright::rules
