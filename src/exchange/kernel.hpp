/// The kernel keeps its settings and its printers for the whole process. Whoever writes through it holds one of these:
/// one writer at a time, and the kernel says nothing on its own. Inside `exchange` only.
#pragma once

#include <mutex>

#include <Message.hxx>
#include <Message_Messenger.hxx>

namespace fallwright::exchange {

class KernelGuard {
 public:
  KernelGuard() : lock_{mutex()}, printers_{Message::DefaultMessenger()->Printers()} {
    Message::DefaultMessenger()->ChangePrinters().Clear();
  }
  ~KernelGuard() { Message::DefaultMessenger()->ChangePrinters() = printers_; }
  KernelGuard(const KernelGuard&) = delete;
  KernelGuard& operator=(const KernelGuard&) = delete;

 private:
  static std::mutex& mutex() {
    static std::mutex one;
    return one;
  }
  std::lock_guard<std::mutex> lock_;
  Message_SequenceOfPrinters printers_;
};

}  // namespace fallwright::exchange
