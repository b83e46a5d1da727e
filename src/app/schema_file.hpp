/// The schema of the job file, where an editor finds it. Inside `app` only.
#pragma once

#include <filesystem>
#include <string>

namespace fallwright::app {

/// What the `#:schema` line of a new job file names: the schema that was installed with this program, or, of a program
/// that runs from where it was built, one that is to be written beside the job file.
struct SchemaPlace {
  std::string address;
  std::filesystem::path to_write;  ///< empty: it is there
};

/// @throws diag::JobFaults where a file of another kind has the name of the one beside.
SchemaPlace schema_for(const std::string& job_file);

}  // namespace fallwright::app
