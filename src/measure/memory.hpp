/// What was measured on the solids of one model, for others that are like it: of a solid that lies to the last bit as
/// one lay before, nothing is measured again.
#pragma once

#include <any>
#include <cstddef>
#include <optional>
#include <string>
#include <type_traits>
#include <unordered_map>
#include <unordered_set>

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
  Memory() = default;
  /// One that knows what another knows, and takes in what that one does not. @pre `under` is closed, and outlives it.
  explicit Memory(const Memory& under) : under_{&under} {}
  Memory& operator=(const Memory&) = delete;

  /// The same for two solids that are the same; nothing where corners, arcs and boxes do not tell all of a solid (a
  /// dished floor), and once it is closed, for one that it has not met.
  std::optional<std::size_t> number_of(const brep::Skin& skin);

  /// The answer to a question: as it was found before, or made.
  template <class Make>
  auto once(const Question& question, const Make& make) -> decltype(make()) {
    using Answer = decltype(make());
    if (const std::any* known = answer_to(question)) return std::any_cast<const Answer&>(*known);
    Answer answer = make();
    if (!closed_) answers_.emplace(question.bytes(), answer);
    return answer;
  }

  /// As it was found before; nothing where it was not.
  template <class Answer>
  const Answer* known(const Question& question) const {
    return std::any_cast<Answer>(answer_to(question));
  }

  void close() { closed_ = true; }

 private:
  const std::any* answer_to(const Question& question) const;
  std::optional<std::size_t> number_known(const std::string& solid) const;
  bool is_glanced(double glance) const;
  std::size_t count() const { return numbers_.size() + (under_ ? under_->count() : 0); }

  const Memory* under_ = nullptr;
  std::unordered_map<std::string, std::size_t> numbers_;
  std::unordered_set<double> glances_;  ///< of those: most that were not met are told from them without more ado
  std::unordered_map<std::string, std::any> answers_;
  bool closed_ = false;
};

}  // namespace fallwright::measure
