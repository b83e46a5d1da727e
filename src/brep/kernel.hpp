/// The kernel keeps its settings and its printers for the whole process. Whoever reads or writes files through it holds
/// one of these: one at a time, and the kernel says nothing on its own.
#pragma once

#include <mutex>

#include <Message.hxx>
#include <Message_Messenger.hxx>

namespace fallwright::brep {

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

}  // namespace fallwright::brep
