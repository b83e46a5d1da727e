#include "app/base_file.hpp"

#include <filesystem>
#include <system_error>

#include "diag/fault.hpp"
#include "diag/text_file.hpp"
#include "exchange/sha256.hpp"
#include "intake/intake.hpp"

namespace fallwright::app {
namespace {

/// Of standard input, which a job file may be, no base is read: what is no file is refused here.
std::string text_of(const std::string& path) {
  namespace fs = std::filesystem;
  std::error_code unread;  // what cannot be looked at tells why when it is opened
  const fs::file_status what = fs::status(path, unread);
  if (fs::exists(what) && !fs::is_regular_file(what))
    throw job::NoBody{"'" + path + "' is " + (fs::is_directory(what) ? "a folder" : "a pipe or a device") +
                      "; allowed is a STEP file"};
  try {
    return diag::read_text(path, intake::greatest_bytes);
  } catch (const diag::MachineError& e) {
    throw job::NoBody{"'" + path + "': " + e.reason()};
  } catch (const diag::JobFaults& e) {
    throw job::NoBody{e.what()};
  }
}

}  // namespace

job::BodyOf body_beside(const std::string& job_path) {
  return [job_path](const job::BodyFile& file) {
    const std::string path = (std::filesystem::path{job_path}.parent_path() / file.name).string();
    if (file.name == diag::standard_input) throw job::NoBody{"a base is read from a file, not from standard input"};
    const std::string text = text_of(path);
    try {
      job::Body body{*intake::base_of(text, file)};
      body.path = path, body.sha256 = exchange::sha256(text);
      return std::make_shared<const job::Body>(std::move(body));
    } catch (const job::NoBody& no) {
      throw job::NoBody{"'" + path + "': " + no.what(), no.key()};
    }
  };
}

}  // namespace fallwright::app
