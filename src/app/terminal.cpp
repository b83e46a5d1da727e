#include "app/terminal.hpp"

#include "units/letters.hpp"

namespace fallwright::app {
namespace {

/// How many bytes at the end may begin a letter that goes on.
std::size_t begun_at_end(std::string_view bytes) {
  for (std::size_t back = 1; back <= 3 && back <= bytes.size(); ++back) {
    const auto byte = static_cast<unsigned char>(bytes[bytes.size() - back]);
    if ((byte & 0xc0u) == 0x80u) continue;
    const std::size_t length = byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : byte >= 0xc0 ? 2 : 1;
    return length > back ? back : 0;
  }
  return 0;
}

}  // namespace

Printable::~Printable() {
  if (!begun_.empty()) put(begun_);
  stream_.rdbuf(to_);
}

bool Printable::put(std::string_view bytes) {
  const std::string text = units::printable(bytes);
  const auto size = static_cast<std::streamsize>(text.size());
  return to_->sputn(text.data(), size) == size;
}

std::streamsize Printable::xsputn(const char* bytes, std::streamsize count) {
  const std::lock_guard lock{writing_};
  begun_.append(bytes, static_cast<std::size_t>(count));
  const std::size_t whole = begun_.size() - begun_at_end(begun_);
  const bool written = put(std::string_view{begun_}.substr(0, whole));
  begun_.erase(0, whole);
  return written ? count : 0;
}

Printable::int_type Printable::overflow(int_type byte) {
  if (traits_type::eq_int_type(byte, traits_type::eof())) return traits_type::not_eof(byte);
  const char one = traits_type::to_char_type(byte);
  return xsputn(&one, 1) == 1 ? byte : traits_type::eof();
}

int Printable::sync() {
  return to_->pubsync();
}

}  // namespace fallwright::app
