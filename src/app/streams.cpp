#include "app/streams.hpp"

#include <cerrno>
#include <csignal>
#include <iostream>

#include <fcntl.h>
#include <unistd.h>

namespace fallwright::app {

void guard_streams() {
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (fcntl(stream, F_GETFD) != -1 || errno != EBADF) continue;
    // Opened the wrong way round: it takes the number, and using it fails as before.
    [[maybe_unused]] const int taken = open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);
  }
}

bool all_is_out() {
  if (std::cout.flush()) return true;
  std::cerr << "fallwright: standard output is closed or full; what it should have shown is lost\n";
  return false;
}

}  // namespace fallwright::app
