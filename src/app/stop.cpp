#include "app/stop.hpp"

#include <atomic>
#include <chrono>
#include <cstring>
#include <string>
#include <system_error>

#include <pthread.h>
#include <unistd.h>

namespace fallwright::app::stop {
namespace {

constexpr int signals[] = {SIGINT, SIGTERM, SIGHUP};
constexpr std::chrono::seconds patience{1};

/// Kept to the process's last moment: a signal may come while everything else is being let go.
struct State {
  std::timed_mutex steps;
  std::mutex listing;
  std::list<std::function<void()>> undo;
  std::atomic<bool> begun = false, over = false;
};
State& state() {
  static State& one = *new State;
  return one;
}

/// Past the stream, whose lock another thread may hold.
void say(const std::string& line) {
  [[maybe_unused]] const auto written = ::write(STDERR_FILENO, line.data(), line.size());
}

/// The latest first, as they would be undone without a stop.
void undo_all() {
  State& s = state();
  if (!s.steps.try_lock_for(patience)) return;  // and never given back: no step begins any more
  const std::lock_guard lock{s.listing};
  for (auto it = s.undo.rbegin(); it != s.undo.rend(); ++it) try {
      (*it)();
    } catch (...) {  // what is left is left to the next run
    }
}

[[noreturn]] void end_by(int signal) {
  state().begun = true;
  undo_all();
  say(std::string{"fallwright: stopped by SIG"} + sigabbrev_np(signal) + "; what was not finished is removed\n");
  _exit(128 + signal);
}

}  // namespace

Undo::Undo(std::function<void()> undo) {
  const std::lock_guard lock{state().listing};
  place_ = state().undo.insert(state().undo.end(), std::move(undo));
}

Undo::~Undo() {
  const std::lock_guard lock{state().listing};
  state().undo.erase(place_);
}

std::unique_lock<std::timed_mutex> held_off() {
  return std::unique_lock{state().steps};
}

void stay_if_begun() {
  while (state().begun) pause();
}

Watch::Watch() {
  sigemptyset(&signals_);
  for (const int signal : signals) {
    struct sigaction now {};
    if (sigaction(signal, nullptr, &now) == 0 && now.sa_handler != SIG_IGN) sigaddset(&signals_, signal);
  }
  pthread_sigmask(SIG_BLOCK, &signals_, nullptr);
  try {
    thread_ = std::thread{[this] { wait(); }};
  } catch (const std::system_error&) {
    pthread_sigmask(SIG_UNBLOCK, &signals_, nullptr);
  }
}

Watch::~Watch() {
  if (!thread_.joinable()) return;
  state().over = true;
  pthread_kill(thread_.native_handle(), SIGTERM);
  thread_.join();
}

void Watch::wait() {
  sigset_t all = signals_;
  sigaddset(&all, SIGTERM);  // the end of the watch is told by it, ignored or not
  pthread_sigmask(SIG_BLOCK, &all, nullptr);
  int signal = 0;
  while (sigwait(&all, &signal) != 0) {
  }
  if (!state().over) end_by(signal);
}

}  // namespace fallwright::app::stop
