// Every column of every CSV holds what its header says, as a reader of another language sees it.
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "report/together.hpp"
#include "report/valued.hpp"
#include "support/run.hpp"

namespace fallwright {
namespace {

using Json = nlohmann::json;
using Row = std::vector<std::string>;
using Sample = sample::Valued;

/// Every CSV of a room and of an order, as Python's csv reads it.
Json tables() {
  const Sample sample;
  const report::Report one = sample.report();
  const report::Together all = report::together({&one, {"the attic", "a file is in the way"}, &one});
  const sample::Folder folder{"csv"};
  std::string files;
  const std::pair<const char*, std::string> csvs[] = {
      {"takeoff", report::takeoff_csv(one)}, {"cuts", report::cuts_csv(one)},
      {"checks", report::checks_csv(one)},   {"rooms", report::rooms_csv(all)},
      {"packs", report::packs_csv(all)},     {"pieces", report::pieces_csv(all)},
      {"sticks", report::sticks_csv(all)},   {"tightest", report::tightest_csv(all)}};
  for (const auto& [name, text] : csvs) {
    const std::string path = folder / (std::string{name} + ".csv");
    std::ofstream{path, std::ios::binary} << text;
    files += " '" + path + "'";
  }
  const sample::Ran ran = sample::run("python3 '" PROJECT_DIR "/tests/report/read_csv.py'" + files);
  EXPECT_EQ(ran.code, 0) << ran.out;
  return Json::parse(ran.out);
}

TEST(CsvValues, AnotherReaderFindsEveryFieldUnderItsHeader) {
  // Source: Python's csv module, strict; the sample's own numbers, lengths on a tape by hand: 263.525 mm is 10-3/8 in.
  const Json read = tables();
  struct Wanted {
    const char* table;
    std::size_t rows, row;
    std::vector<std::pair<const char*, const char*>> fields;
  };
  const Wanted all[] = {{"takeoff",
                         2,
                         1,
                         {{"item", "tile, walls"},
                          {"quantity", "45.250"},
                          {"unit", "ft2"},
                          {"buy", "5"},
                          {"buy unit", "boxes"},
                          {"basis", "back 30.0 ft2"},
                          {"waste", "0.1000"},
                          {"pack", "10.0000"},
                          {"unit of pack", "ft2"},
                          {"readings may add", "0.020"},
                          {"price", "41.50"},
                          {"cost", "207.50"},
                          {"supplier", "the yard"},
                          {"hold", ""}}},
                        {"takeoff",
                         2,
                         2,
                         {{"item", "sand"},
                          {"quantity", "4.400"},
                          {"unit", "ft3"},
                          {"buy", "4.840"},
                          {"buy unit", "ft3"},
                          {"basis", "loose"},
                          {"waste", "0.1000"},
                          {"pack", ""},
                          {"unit of pack", ""},
                          {"readings may add", "0.000"},
                          {"price", ""},
                          {"cost", ""},
                          {"supplier", ""},
                          {"hold", ""}}},
                        {"cuts",
                         1,
                         1,
                         {{"mark", "A"},
                          {"count", "2"},
                          {"stock", "2x4"},
                          {"length", "10-3/8\""},
                          {"length mm", "263.525"},
                          {"width mm", "88.900"},
                          {"thickness mm", "38.100"},
                          {"ends", "0.0 and 2.3 deg from square"},
                          {"parts", "x y"},
                          {"fitted mm", "1.700"},
                          {"hold", ""},
                          {"rip from", ""}}},
                        {"checks",
                         2,
                         1,
                         {{"id", "floor.fall-least"},
                          {"title", "floor falls enough"},
                          {"result", "fail"},
                          {"measured", "0.200 in/ft (1:60)"},
                          {"limit", "1/4 in/ft (1:48) to 1/2 in/ft (1:24)"},
                          {"measured SI", "0.016667"},
                          {"least SI", "0.020833"},
                          {"greatest SI", "0.041667"},
                          {"unit SI", "ratio"},
                          {"source", "IRC P2709.1"},
                          {"verified", "secondary"},
                          {"where", "left facet"},
                          {"advice", "raise the rim"}}},
                        {"checks",
                         2,
                         2,
                         {{"id", "floor.level"},
                          {"title", "floor is level"},
                          {"result", "not-checked"},
                          {"measured", "-"},
                          {"limit", "at most 1/4\""},
                          {"measured SI", ""},
                          {"least SI", ""},
                          {"greatest SI", "6.350000"},
                          {"unit SI", "mm"},
                          {"source", ""},
                          {"verified", ""},
                          {"where", ""},
                          {"advice", "read spot levels"}}},
                        {"rooms",
                         3,
                         1,
                         {{"number", "1"},
                          {"room", "sample alcove"},
                          {"hand", "left"},
                          {"base", "57-1/2\" x 36\""},
                          {"set mortar mm3", "40000000"},
                          {"worst check", "floor.fall-least"},
                          {"result", "fail"},
                          {"source of its limit", "IRC P2709.1"},
                          {"not in this order", ""},
                          {"batches", "0"},
                          {"cost", "207.50"}}},
                        {"rooms",
                         3,
                         2,
                         {{"number", "2"},
                          {"room", "the attic"},
                          {"hand", ""},
                          {"base", ""},
                          {"set mortar mm3", "0"},
                          {"worst check", ""},
                          {"result", ""},
                          {"source of its limit", ""},
                          {"not in this order", "a file is in the way"},
                          {"batches", "0"},
                          {"cost", ""}}},
                        {"packs",
                         3,
                         1,
                         {{"item", "tile, walls"},
                          {"quantity", "90.500"},
                          {"unit", "ft2"},
                          {"buy", "10"},
                          {"buy unit", "boxes"},
                          {"buy apart", "10"},
                          {"rooms", "2"},
                          {"basis", "2 rooms, 9.96 boxes; careful: only 4 % of one is left over"},
                          {"price", "41.50"},
                          {"cost", "415.00"},
                          {"supplier", "the yard"},
                          {"hold", ""}}},
                        {"packs",
                         3,
                         3,
                         {{"item", "2x4"},
                          {"quantity", "3.458"},
                          {"unit", "ft"},
                          {"buy", "1"},
                          {"buy unit", "stick of 8 ft"},
                          {"buy apart", "2"},
                          {"rooms", "2"},
                          {"basis", "by the saw list"},
                          {"price", ""},
                          {"cost", ""},
                          {"supplier", ""},
                          {"hold", ""}}},
                        {"pieces",
                         1,
                         1,
                         {{"piece", "S1"},
                          {"count", "4"},
                          {"stock", "2x4"},
                          {"length", "10-3/8\""},
                          {"length mm", "263.525"},
                          {"width mm", "88.900"},
                          {"thickness mm", "38.100"},
                          {"ends", "0.0 and 2.3 deg from square"},
                          {"rooms' own marks, by room number", "A of 1, 3"},
                          {"fitted mm", "1.700"},
                          {"hold", ""},
                          {"rip from", ""}}},
                        {"sticks",
                         1,
                         1,
                         {{"count", "1"},
                          {"stock", "2x4"},
                          {"stick", "8 ft"},
                          {"stick mm", "2438.400"},
                          {"pieces from left to right", "4 x S1 10-3/8\""},
                          {"offcut mm", "1371.600"},
                          {"to order", ""},
                          {"hold", ""}}},
                        {"tightest",
                         1,
                         1,
                         {{"check", "floor.fall-least"},
                          {"result", "fail"},
                          {"margin", "-0.200000"},
                          {"number", "1"},
                          {"room", "sample alcove"},
                          {"where", "left facet"}}}};
  for (const Wanted& w : all) {
    const Json& table = read.at(w.table);
    ASSERT_EQ(table.size(), w.rows + 1) << w.table;
    Row header, row;
    for (const auto& [name, value] : w.fields) header.push_back(name), row.push_back(value);
    EXPECT_EQ(table[0].get<Row>(), header) << w.table;
    EXPECT_EQ(table[w.row].get<Row>(), row) << w.table;
    for (const Json& any : table) EXPECT_EQ(any.size(), header.size()) << w.table;
  }
}

}  // namespace
}  // namespace fallwright
