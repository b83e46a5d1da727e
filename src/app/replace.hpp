/// A build's folder takes the place of an older one, and nothing that is not a build's is lost by it.
///
/// A run works in a staging folder of its own beside the wanted one, `.fallwright-` and six letters:
///   new/NAME   being written; all in it is ours
///   swap/NAME  whole, and about to change places with NAME; after that, the folder that was there
///   old/NAME   the folder that was there, moved away where the file system knows no exchange
///   gone/NAME  given up
/// Each step is one rename, so a run may die anywhere: who finds a staging folder knows from these names what to do.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace fallwright::app {

/// Told to the user, as a line on standard error.
using Say = std::function<void(const std::string&)>;

/// Whether a name is one that staging folders have; nothing else may have it.
bool is_staging_name(const std::string& name);

/// An empty staging folder beside `wanted`, of a name that nothing had. @throws diag::MachineError.
std::filesystem::path make_staging(const std::filesystem::path& wanted);

/// Refuses what cannot be replaced without loss: a folder that another kind of run filled, whose list is none of these
/// names ("study.json"); a file of a build that was changed since; and anything a build did not write under one of them
/// ("model.step"; "stl/" for a folder).
/// @throws diag::MachineError that names it.
void must_be_replaceable(const std::filesystem::path& folder, const std::vector<std::string>& names);

/// Lets the whole folder swap/NAME in `staging` take the place of `wanted`, in one step where the file system can; what
/// is not a build's comes along. @throws diag::MachineError; `wanted` is then as it was.
void take_place(const std::filesystem::path& staging, const std::filesystem::path& wanted);

/// Removes a staging folder whose run is over, however far it had come: a folder that was moved away goes back, what a
/// build wrote is removed, and any other file goes where it belongs, or stays and is told of when its place is taken.
void clear(const std::filesystem::path& staging, const Say& say);

/// The same for all of them in this folder. @pre no run works in it.
void clear_dead(const std::filesystem::path& folder, const Say& say);

}  // namespace fallwright::app
