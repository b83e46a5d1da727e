/// DXF files through ezdxf, an independent reader. It takes longer to begin than to read a sheet: so one is begun for
/// all that a program's tests ask one by one.
#pragma once

#include <cstdio>
#include <fstream>
#include <string>

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <nlohmann/json.hpp>

#include "support/run.hpp"

namespace fallwright::sample {

class DxfReader {
 public:
  DxfReader() {
    const std::string answers = folder_ / "answers";
    mkfifo(answers.c_str(), 0600);
    asked_ = popen((PYTHON " " PROJECT_DIR "/tests/outside/audit_dxf.py --ask > " + answers).c_str(), "w");
    answers_.open(answers);
  }
  ~DxfReader() { pclose(asked_); }
  std::string read(const std::string& file) {
    std::fprintf(asked_, "%s\n", file.c_str());
    std::fflush(asked_);
    std::string answer;
    std::getline(answers_, answer);
    return answer;
  }

 private:
  Folder folder_{"dxf-reader"};
  std::FILE* asked_ = nullptr;
  std::ifstream answers_;
};

/// What ezdxf finds in a file, its audit without an error or a fix (audit_dxf.py).
inline nlohmann::json audited(const std::string& file) {
  static DxfReader reader;
  const std::string answer = reader.read(file);
  const nlohmann::json found = nlohmann::json::parse(answer);
  EXPECT_TRUE(found.at("errors").empty() && found.at("fixes").empty()) << answer;
  return found;
}

}  // namespace fallwright::sample
