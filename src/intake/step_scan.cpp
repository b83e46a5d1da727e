#include "intake/step_scan.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <map>
#include <string_view>
#include <vector>

#include "intake/intake.hpp"
#include "units/words.hpp"

namespace fallwright::intake {
namespace {

/// Words of entities, each with how often it stands in the file outside texts and comments (ISO 10303-21, clear text).
using Words = std::map<std::string_view, std::size_t>;

bool of_word(char c) {
  return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/// One pass over a text, outside its texts and comments. The kernel trusts what it reads: a name that stands for
/// nothing would take it past the end of what there is, so such a file is refused here.
class Scan {
 public:
  explicit Scan(std::string_view text) : text_{text} {
    while (at_ < text_.size()) step();
    if (depth_ != 0) damaged_ = true;
    for (auto* ids : {&defined_, &named_}) std::sort(ids->begin(), ids->end());
    if (std::adjacent_find(defined_.begin(), defined_.end()) != defined_.end()) damaged_ = true;
    named_.erase(std::unique(named_.begin(), named_.end()), named_.end());
    if (!std::includes(defined_.begin(), defined_.end(), named_.begin(), named_.end())) damaged_ = true;
  }

  std::size_t count(const char* word) const { return words_.at(word); }
  bool damaged() const { return damaged_; }

 private:
  void step() {
    const char c = text_[at_];
    if (c == '\'') return skip_to("'", 1);
    if (text_.compare(at_, 2, "/*") == 0) return skip_to("*/", 2);
    if (std::isdigit(static_cast<unsigned char>(c))) return number();
    if (of_word(c)) return word();
    if (c == '#') return name();
    if (c == '(' && ++depth_ > deepest) damaged_ = true;
    if (c == ')' && --depth_ < 0) damaged_ = true;
    if (c == ';' && depth_ != 0) damaged_ = true;
    ++at_;
  }

  void skip_to(std::string_view end, std::size_t begin) {
    const std::size_t found = text_.find(end, at_ + begin);
    if (found == std::string_view::npos) damaged_ = true;
    at_ = found == std::string_view::npos ? text_.size() : found + end.size();
  }

  void word() {
    const std::size_t from = at_;
    while (at_ < text_.size() && of_word(text_[at_])) ++at_;
    if (const auto it = words_.find(text_.substr(from, at_ - from)); it != words_.end()) ++it->second;
  }

  /// With a coordinate without end the kernel looks for an end of its face without end.
  void number() {
    double value = 0;
    const char* const end = text_.data() + text_.size();
    const auto [next, error] = std::from_chars(text_.data() + at_, end, value);
    if (error != std::errc{} || value > greatest) damaged_ = true;
    at_ = static_cast<std::size_t>(next - text_.data());
  }

  /// "#12 =" defines what "#12" names elsewhere.
  void name() {
    std::size_t id = 0, digits = 0;
    for (++at_; at_ < text_.size() && std::isdigit(static_cast<unsigned char>(text_[at_])); ++at_, ++digits)
      id = id * 10 + static_cast<std::size_t>(text_[at_] - '0');
    std::size_t next = at_;
    while (next < text_.size() && std::isspace(static_cast<unsigned char>(text_[next]))) ++next;
    const bool defines = next < text_.size() && text_[next] == '=';
    if (digits == 0 || digits > most_digits || (defines && depth_ != 0)) damaged_ = true;
    (defines ? defined_ : named_).push_back(id);
  }

  static constexpr double greatest = 1e9;  // no part of a base has as many of any unit
  static constexpr int deepest = 32;
  static constexpr std::size_t most_digits = 18;
  std::string_view text_;
  std::size_t at_ = 0;
  int depth_ = 0;
  bool damaged_ = false;
  std::vector<std::size_t> defined_, named_;
  Words words_{{"ADVANCED_FACE", 0},     {"FACE_SURFACE", 0}, {"MANIFOLD_SOLID_BREP", 0},
               {"BREP_WITH_VOIDS", 0},   {"FACETED_BREP", 0}, {"SHELL_BASED_SURFACE_MODEL", 0},
               {"TRIANGULATED_FACE", 0}, {"LENGTH_UNIT", 0}};
};

}  // namespace

void scan_step(const std::string& text) {
  const auto begin = std::find_if_not(text.begin(), text.end(), [](unsigned char c) { return std::isspace(c); });
  if (begin == text.end()) throw job::NoBody{"the file is empty"};
  constexpr std::string_view opening = "ISO-10303-21", closing = "END-ISO-10303-21";
  if (text.compare(static_cast<std::size_t>(begin - text.begin()), opening.size(), opening) != 0)
    throw job::NoBody{"the file is not STEP: it does not begin with 'ISO-10303-21;'"};
  if (text.find(closing) == std::string::npos)
    throw job::NoBody{"the file is cut off: it does not end with 'END-ISO-10303-21;'. Copy it again, whole"};
  const Scan scan{text};
  const auto count = [&](const char* word) { return scan.count(word); };
  if (count("BREP_WITH_VOIDS") > 0)
    throw job::NoBody{"its solid has hollows inside; allowed is one closed skin. Fill them, or export the outer skin"};
  const std::size_t solids = count("MANIFOLD_SOLID_BREP") + count("FACETED_BREP");
  if (solids == 0) {
    const char* found = count("SHELL_BASED_SURFACE_MODEL") > 0 ? "surfaces and no solid: a surface model has no inside"
                        : count("TRIANGULATED_FACE") > 0       ? "a mesh and no solid"
                                                               : "no solid";
    throw job::NoBody{std::string{"the file holds "} + found + ". Export the base as one solid"};
  }
  if (solids > 1)
    throw job::NoBody{"the file holds " + std::to_string(solids) + " solids; allowed is one. Export the base alone"};
  if (const std::size_t faces = count("ADVANCED_FACE") + count("FACE_SURFACE"); faces > greatest_faces)
    throw job::NoBody{"its solid has " + units::counted(faces, "face", "faces") + "; at most " +
                      std::to_string(greatest_faces) + " are taken. Leave out lettering, textures and small rounds"};
  if (scan.damaged())
    throw job::NoBody{
        "the file is damaged: it names what it does not hold, has numbers without end, or breaks off within. Copy it "
        "again, whole"};
  if (count("LENGTH_UNIT") == 0)
    throw job::NoBody{"the file does not say in which unit its lengths are. Export it again with its unit"};
}

}  // namespace fallwright::intake
