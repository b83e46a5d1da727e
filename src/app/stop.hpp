/// How a run ends early: by a signal, with nothing half-done left behind.
#pragma once

#include <functional>
#include <list>
#include <mutex>
#include <thread>

#include <csignal>

namespace fallwright::app::stop {

/// Something to be undone when the run is stopped. Lives as long as there is something to undo.
class Undo {
 public:
  explicit Undo(std::function<void()> undo);
  ~Undo();
  Undo(const Undo&) = delete;
  Undo& operator=(const Undo&) = delete;

 private:
  std::list<std::function<void()>>::iterator place_;
};

/// While it is held no stop begins: for steps that must not be seen half-done. Short ones only: a stop waits for its
/// end, though no longer than a second. Once a stop has begun it is not given any more.
[[nodiscard]] std::unique_lock<std::timed_mutex> held_off();

/// Does not return once a stop has begun: what fails from then on fails because its files are being taken away, and
/// there is nothing to tell of that.
void stay_if_begun();

/// SIGINT, SIGTERM and SIGHUP undo all there is to undo, say so in one line, and end the process with 128 + signal. A
/// signal that was ignored when the program began (as nohup does) stays ignored. To be made before any thread is; where
/// the system gives no thread for it, the signals keep their usual meaning, and the next run tidies up.
class Watch {
 public:
  Watch();
  ~Watch();
  Watch(const Watch&) = delete;
  Watch& operator=(const Watch&) = delete;

 private:
  void wait();

  sigset_t signals_;
  std::thread thread_;
};

}  // namespace fallwright::app::stop
