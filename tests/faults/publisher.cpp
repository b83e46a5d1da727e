/// Puts a small folder in place as a build does, without building anything: publisher OUT NAME WORD.
/// The folder gets three files that hold WORD, one of them named by it, and their list. Ends with 3 and a line when
/// refused.
#include <filesystem>
#include <iostream>
#include <nlohmann/json.hpp>

#include "app/held_folder.hpp"
#include "app/staging.hpp"
#include "app/stop.hpp"
#include "app/streams.hpp"
#include "exchange/sha256.hpp"

using namespace fallwright;

namespace {

void publish(const std::string& out, const std::string& name, const std::string& word) {
  const auto say = [](const std::string& line) { std::cerr << line + "\n"; };
  std::filesystem::path wanted = std::filesystem::weakly_canonical(std::filesystem::absolute(out)) / name;
  if (std::filesystem::is_symlink(wanted)) wanted = std::filesystem::canonical(wanted);
  const app::HeldFolder held{wanted.parent_path(), say};
  app::Staging staging{wanted, {"cuts.csv", "stl/", "report.json"}, say};
  for (const std::string& file : {std::string{"cuts.csv"}, std::string{"stl/base.stl"}, "stl/deep/" + word + ".stl"})
    staging.write(file, word + "\n" + std::string(5000, '.'));
  nlohmann::json list{{"tool", {{"name", "fallwright"}}}, {"files", nlohmann::json::array()}};
  for (const std::string& file : staging.names())
    list["files"].push_back({{"path", file},
                             {"bytes", std::filesystem::file_size(staging.place(file))},
                             {"sha256", exchange::sha256_of_file(staging.place(file))}});
  staging.write("report.json", list.dump(2));
  staging.publish();
}

}  // namespace

int main(int argc, char** argv) {
  app::guard_streams();
  if (argc != 4) return 2;
  const app::stop::Watch watch;
  try {
    publish(argv[1], argv[2], argv[3]);
  } catch (const std::exception& e) {
    std::cerr << std::string{e.what()} + "\n";
    return 3;
  }
  return 0;
}
