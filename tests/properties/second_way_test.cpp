#include <filesystem>

#include <gtest/gtest.h>

#include "exchange/export.hpp"
#include "properties/rooms.hpp"
#include "properties/second_way.hpp"
#include "support/random_room.hpp"
#include "support/run.hpp"

namespace fallwright::properties {
namespace {

/// The STL files of a room, read again.
Meshes meshes_of(const app::Work& work, unsigned seed) {
  const sample::Folder folder{"second-way-" + std::to_string(seed)};
  std::vector<std::string> files;
  exchange::write_stls(*work.model, [&](const std::string& file) {
    std::filesystem::create_directories(std::filesystem::path{folder / file}.parent_path());
    files.push_back(file);
    return folder / file;
  });
  Meshes meshes;
  for (const std::string& file : files)
    if (file.rfind("stl/", 0) == 0) meshes[file.substr(4, file.size() - 8)] = read_stl(folder / file);
  return meshes;
}

class SecondWay : public testing::TestWithParam<unsigned> {};

TEST_P(SecondWay, FindsTheNumbersOfTheReport) {
  // Source: the exported triangles, measured apart from the kernel and the parameters: sections, vertical rays, clipped
  // triangles, turned planes; CGAL's exact Boolean operations for the free floor.
  const std::string room = sample::random_room(GetParam());
  const auto work = worked_out(room);
  const auto report = sample::Json::parse(report::to_json(*work->report));
  const Opinion opinion = second_opinion(report, meshes_of(*work, GetParam()));
  std::string told;
  for (const std::string& line : opinion.disagree) told += "  " + line + "\n";
  EXPECT_TRUE(opinion.disagree.empty()) << opinion.disagree.size() << " of " << opinion.compared << " disagree:\n"
                                        << told << room;
  EXPECT_GT(opinion.compared, 300);
}

INSTANTIATE_TEST_SUITE_P(Seeds, SecondWay, testing::ValuesIn(seeds({1, 11, 13, 19})),
                         [](const auto& info) { return std::to_string(info.param); });

}  // namespace
}  // namespace fallwright::properties
