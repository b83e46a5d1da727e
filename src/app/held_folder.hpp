/// A folder that output goes into, held by one run at a time.
#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "app/replace.hpp"
#include "app/stop.hpp"

namespace fallwright::app {

/// Whether other runs may work in the folder at the same time: those that all write under names of their own there.
enum class Holding { alone, beside_others };

/// The folder is made where there is none, another run that works in it is waited for, and what runs that died have
/// left in it is tidied up: whatever has the name of a staging folder here belongs to nobody, since its run would hold
/// this folder; a run beside others tidies up before it lets them in. Let go, a folder that was made and got nothing is
/// removed again.
class HeldFolder {
 public:
  /// @throws diag::MachineError when it cannot be made or opened.
  HeldFolder(std::filesystem::path path, const Say& say, Holding how = Holding::alone);
  ~HeldFolder();
  HeldFolder(const HeldFolder&) = delete;
  HeldFolder& operator=(const HeldFolder&) = delete;

 private:
  void make();
  bool lock(const Say& say);
  bool wait_for_others(const Say& say) const;
  bool is_named_still() const;
  void unmake() const;

  std::filesystem::path folder_;
  Holding how_;
  std::vector<std::filesystem::path> made_;  ///< outermost first
  int descriptor_ = -1;
  std::optional<stop::Undo> undo_;
};

/// All of these, in an order that lets no two runs wait for each other: what stands in another one first, so that what
/// was made is removed again from the inside out.
std::vector<std::unique_ptr<HeldFolder>> hold(const std::map<std::filesystem::path, Holding>& folders, const Say& say);

}  // namespace fallwright::app
