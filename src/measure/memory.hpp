/// What was measured on the solids of one model, for others that are like it: of a solid that lies to the last bit as
/// one lay before, nothing is measured again.
#pragma once

#include <any>
#include <cstddef>
#include <optional>
#include <string>
#include <type_traits>
#include <unordered_map>

namespace fallwright::brep {
struct Skin;
}

namespace fallwright::measure {

/// What is asked, with everything the answer hangs on, byte by byte.
class Question {
 public:
  explicit Question(const char* what) : bytes_{what} {}
  Question& of(const void* data, std::size_t size) {
    bytes_.append(static_cast<const char*>(data), size);
    return *this;
  }
  template <class Number>
  Question& of(const Number& number) {
    static_assert(std::is_arithmetic_v<Number>);
    return of(&number, sizeof number);
  }
  const std::string& bytes() const { return bytes_; }

 private:
  std::string bytes_;
};

/// Takes in while one model is measured. Closed, it is only looked at, by any number of threads at once, and grows no
/// more however many models are measured with it.
class Memory {
 public:
  /// The same for two solids that are the same; nothing where corners, arcs and boxes do not tell all of a solid (a
  /// dished floor), and once it is closed, for one that it has not met.
  std::optional<std::size_t> number_of(const brep::Skin& skin);

  /// The answer to a question: as it was found before, or made.
  template <class Make>
  auto once(const Question& question, const Make& make) -> decltype(make()) {
    using Answer = decltype(make());
    if (const auto it = answers_.find(question.bytes()); it != answers_.end())
      return std::any_cast<const Answer&>(it->second);
    Answer answer = make();
    if (!closed_) answers_.emplace(question.bytes(), answer);
    return answer;
  }

  void close() { closed_ = true; }

 private:
  std::unordered_map<std::string, std::size_t> numbers_;
  std::unordered_map<std::string, std::any> answers_;
  bool closed_ = false;
};

}  // namespace fallwright::measure
