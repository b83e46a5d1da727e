#include "fuzz/damaged_step.hpp"

#include <array>
#include <cctype>
#include <random>
#include <vector>

namespace fallwright::fuzz {
namespace {

/// Part of a text.
struct Span {
  std::size_t from = 0, to = 0;
  std::size_t size() const { return to - from; }
};

class Damage {
 public:
  Damage(std::string text, unsigned number) : text_{std::move(text)}, random_{number} {}

  std::string done() {
    using Way = void (Damage::*)();
    constexpr std::array<Way, 12> ways{&Damage::point_elsewhere, &Damage::point_elsewhere, &Damage::point_to_its_like,
                                       &Damage::change_number,   &Damage::change_number,   &Damage::swap_types,
                                       &Damage::swap_entities,   &Damage::leave_out,       &Damage::take_argument,
                                       &Damage::turn_sense,      &Damage::put_nothing,     &Damage::lose_bytes};
    for (std::size_t left = 1 + below(4); left > 0; --left) (this->*ways[below(ways.size())])();
    return std::move(text_);
  }

 private:
  std::size_t below(std::size_t count) { return count == 0 ? 0 : random_() % count; }

  /// Places where a character stands and what follows it for as long as `goes_on`.
  template <class GoesOn>
  std::vector<Span> all(char first, const GoesOn& goes_on) const {
    std::vector<Span> found;
    for (std::size_t at = text_.find(first); at != std::string::npos; at = text_.find(first, at + 1)) {
      std::size_t end = at + 1;
      while (end < text_.size() && goes_on(text_[end])) ++end;
      if (end > at + 1) found.push_back({at, end});
    }
    return found;
  }

  static bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

  /// "#12", wherever it stands; those that begin a line define what they name.
  std::vector<Span> names(bool defining) const {
    std::vector<Span> found;
    for (const Span& s : all('#', is_digit))
      if ((s.from > 0 && text_[s.from - 1] == '\n') == defining) found.push_back(s);
    return found;
  }

  /// From "#12" to its ";", both within.
  Span entity_at(const Span& name) const {
    const std::size_t end = text_.find(';', name.from);
    return {name.from, end == std::string::npos ? text_.size() : end + 1};
  }

  /// "VERTEX_POINT" in "#12 = VERTEX_POINT('',#13);"; empty for an entity of several types.
  Span type_at(const Span& name) const {
    std::size_t from = name.to;
    while (from < text_.size() && (text_[from] == ' ' || text_[from] == '=')) ++from;
    std::size_t to = from;
    while (to < text_.size() && (std::isupper(static_cast<unsigned char>(text_[to])) || text_[to] == '_')) ++to;
    return {from, to};
  }

  std::string of(const Span& s) const { return text_.substr(s.from, s.size()); }
  void put(const Span& s, const std::string& word) { text_.replace(s.from, s.size(), word); }

  void point_elsewhere() {
    const std::vector<Span> all = names(false), known = names(true);
    if (!all.empty() && !known.empty()) put(all[below(all.size())], of(known[below(known.size())]));
  }

  /// At another entity of the type that was pointed at: the kernel then finds what it looks for, in the wrong place.
  void point_to_its_like() {
    const std::vector<Span> all = names(false), known = names(true);
    if (all.empty()) return;
    const Span from = all[below(all.size())];
    const std::string name = of(from);
    std::string type;
    for (const Span& s : known)
      if (of(s) == name) type = of(type_at(s));
    std::vector<std::string> like;
    for (const Span& s : known)
      if (of(type_at(s)) == type) like.push_back(of(s));
    if (!like.empty()) put(from, like[below(like.size())]);
  }

  void change_number() {
    std::vector<Span> numbers;
    for (const char before : {',', '('})
      for (const Span& s : all(before, [](char c) { return is_digit(c) || c == '.' || c == '-' || c == 'E'; }))
        numbers.push_back({s.from + 1, s.to});
    if (numbers.empty()) return;
    const Span s = numbers[below(numbers.size())];
    const std::array<std::string, 10> others{
        "0.",     "-" + of(s), "1.E-12", "1.E300", "-1.E300",
        "1.E400", "7",         "1000.",  "-0.5",   of(numbers[below(numbers.size())])};
    put(s, others[below(others.size())]);
  }

  void swap_types() {
    const std::vector<Span> known = names(true);
    if (known.empty()) return;
    const Span a = type_at(known[below(known.size())]), b = type_at(known[below(known.size())]);
    if (a.size() > 0 && b.size() > 0) put(a, of(b));
  }

  void swap_entities() {
    const std::vector<Span> known = names(true);
    if (known.size() < 2) return;
    Span a = known[below(known.size())], b = known[below(known.size())];
    if (a.from == b.from) return;
    if (a.from > b.from) std::swap(a, b);
    const std::string first = of(a), second = of(b);
    put(b, first), put(a, second);
  }

  /// An entity is lost, or stands there twice under another's name.
  void leave_out() {
    const std::vector<Span> known = names(true);
    if (known.empty()) return;
    const Span entity = entity_at(known[below(known.size())]);
    if (below(2) == 0)
      put(entity, "");
    else
      text_.insert(entity.from, of(entity));
  }

  void take_argument() {
    const std::vector<Span> arguments = all(',', [](char c) { return c != ',' && c != '(' && c != ')' && c != ';'; });
    if (!arguments.empty()) put(arguments[below(arguments.size())], "");
  }

  void turn_sense() {
    std::vector<Span> senses;
    for (const char* sense : {".T.", ".F."})
      for (std::size_t at = text_.find(sense); at != std::string::npos; at = text_.find(sense, at + 1))
        senses.push_back({at, at + 3});
    if (senses.empty()) return;
    const Span s = senses[below(senses.size())];
    put(s, of(s) == ".T." ? ".F." : ".T.");
  }

  void put_nothing() {
    const std::vector<Span> all = names(false);
    constexpr std::array<const char*, 4> nothings{"$", "*", "()", "''"};
    if (!all.empty()) put(all[below(all.size())], nothings[below(nothings.size())]);
  }

  void lose_bytes() {
    const std::size_t at = below(text_.size());
    if (below(2) == 0)
      text_.erase(at, 1 + below(60));
    else
      text_[at] = static_cast<char>(below(256));
  }

  std::string text_;
  std::mt19937 random_;
};

}  // namespace

std::string damaged_step(const std::string& text, unsigned number) {
  return Damage{text, number}.done();
}

}  // namespace fallwright::fuzz
