#include "app/part.hpp"

#include <charconv>
#include <optional>

#include "diag/fault.hpp"
#include "units/letters.hpp"

namespace fallwright::app {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_parts = 1'000'000;

/// "3<between>8" to both numbers; nothing for any other text.
std::optional<Part> parsed(std::string_view text, std::string_view between) {
  const std::size_t at = text.find(between);
  if (at == std::string_view::npos) return std::nullopt;
  Part part;
  const auto number = [](std::string_view digits, std::size_t& to) {
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), to);
    return error == std::errc{} && end == digits.data() + digits.size();
  };
  if (!number(text.substr(0, at), part.number) || !number(text.substr(at + between.size()), part.of))
    return std::nullopt;
  if (part.number < 1 || part.number > part.of || part.of > most_parts) return std::nullopt;
  return part;
}

}  // namespace

std::string shell_word(const std::string& word) {
  const std::string plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_./,:+@%";
  if (!word.empty() && word.find_first_not_of(plain) == std::string::npos) return word;
  std::string text;
  for (const char letter : word) text += letter == '\'' ? "'\\''" : std::string{letter};
  return "'" + text + "'";
}

std::string Part::folder() const {
  return "part-" + std::to_string(number) + "-of-" + std::to_string(of);
}

Part part_of(const std::string& typed) {
  if (const auto part = parsed(typed, "/")) return *part;
  throw diag::JobFaults{
      {{"", 0, 0, "--part",
        "found '" + units::first_letters(typed, 60) +
            "'; a share is two numbers like 3/8, the third of eight, of at most " + std::to_string(most_parts)}}};
}

std::map<std::size_t, std::vector<bool>> parts_in(const fs::path& out, const std::string& name) {
  std::map<std::size_t, std::vector<bool>> found;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator{out, error}) {
    const std::string called = entry.path().filename().string(), head = "part-";
    const auto part =
        called.starts_with(head) ? parsed(std::string_view{called}.substr(head.size()), "-of-") : std::nullopt;
    if (!part || part->folder() != called || !fs::exists(entry.path() / name / share_list, error)) continue;
    auto& there = found[part->of];
    there.resize(part->of);
    there[part->number - 1] = true;
  }
  return found;
}

}  // namespace fallwright::app
