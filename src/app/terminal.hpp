/// What is printed comes out as letters: names, names of files and messages of others may carry orders to a terminal.
#pragma once

#include <mutex>
#include <ostream>
#include <streambuf>
#include <string>
#include <string_view>

namespace fallwright::app {

/// While it lives, all that goes into a stream passes through units::printable, whatever wrote it. A letter whose bytes
/// come in two writes stays whole; what the stream's own buffer cannot write is told as it was before.
/// Threads may share it.
class Printable : public std::streambuf {
 public:
  explicit Printable(std::ostream& stream) : stream_{stream}, to_{stream.rdbuf(this)} {}
  ~Printable() override;
  Printable(const Printable&) = delete;
  Printable& operator=(const Printable&) = delete;

 protected:
  int_type overflow(int_type byte) override;
  std::streamsize xsputn(const char* bytes, std::streamsize count) override;
  int sync() override;

 private:
  bool put(std::string_view bytes);

  std::ostream& stream_;
  std::streambuf* to_;
  std::mutex writing_;
  std::string begun_ = {};  ///< the first bytes of a letter whose others have not come yet
};

}  // namespace fallwright::app
