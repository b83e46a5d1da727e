/// Every writer of a format notices that its file does not get to its end.
#include <csignal>
#include <filesystem>
#include <functional>
#include <map>

#include <sys/resource.h>

#include <gtest/gtest.h>

#include "diag/fault.hpp"
#include "exchange/dxf.hpp"
#include "exchange/export.hpp"
#include "exchange/gltf.hpp"
#include "exchange/paper.hpp"
#include "exchange/step.hpp"
#include "parts/build.hpp"
#include "parts/model.hpp"
#include "support/run.hpp"
#include "support/sample.hpp"

namespace fallwright {
namespace {

namespace fs = std::filesystem;
using job::Length;

/// Files end here, as on a full disk, for as long as it lives.
class FileLimit {
 public:
  explicit FileLimit(rlim_t bytes) {
    std::signal(SIGXFSZ, SIG_IGN);
    getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit limit{bytes, before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &limit);
  }
  ~FileLimit() { setrlimit(RLIMIT_FSIZE, &before_); }
  FileLimit(const FileLimit&) = delete;
  FileLimit& operator=(const FileLimit&) = delete;

 private:
  rlimit before_{};
};

drawing::Sheet sheet() {
  drawing::Sheet sheet;
  sheet.name = "plan";
  sheet.page.paper = {"A4", 297, 210};
  for (int i = 0; i < 500; ++i) sheet.lines.push_back({{0.0, 1.0 * i}, {100.0, 2.0 * i}, drawing::LineKind::outline});
  return sheet;
}

TEST(Writers, NoticeAFileThatDoesNotGetToItsEnd) {
  // Source: POSIX setrlimit: a write past RLIMIT_FSIZE fails with EFBIG, as one to a full disk does with ENOSPC.
  const sample::Folder folder{"short"};
  const auto model =
      parts::build(sample::bare(Length::inches(60), Length::inches(36), Length::inches(30), Length::inches(18)));
  const std::string path = folder / "file";
  const drawing::Sheet drawn = sheet();
  const std::map<std::string, std::function<void()>> writers{
      {"STL", [&] { exchange::write_stls(*model, [&](const std::string&) { return path; }); }},
      {"GLB", [&] { exchange::write_glb(*model, path); }},
      {"STEP", [&] { exchange::write_step(*model, path, 0); }},
      {"DXF", [&] { exchange::write_dxf(drawn, path); }},
      {"SVG", [&] { exchange::write_svg(drawn, path); }},
      {"PDF", [&] { exchange::write_pdf({drawn}, "a title", path, 0); }}};
  for (const auto& [format, write] : writers) {
    ASSERT_NO_THROW(write()) << format;
    const auto whole = fs::file_size(path);
    for (const auto bytes :
         {whole - 1, whole - whole / 4, whole / 2, whole / 10, std::uintmax_t{1}, std::uintmax_t{0}}) {
      const FileLimit limit{bytes};
      EXPECT_THROW(write(), std::runtime_error) << format << " cut at " << bytes << " of " << whole;
    }
    EXPECT_NO_THROW(write()) << format << " is written again when there is room";
  }
}

}  // namespace
}  // namespace fallwright
