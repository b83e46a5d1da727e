#include "page/html.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "page/page.hpp"

namespace fallwright::page {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

const char* const hostile =
    "</script><img src=x onerror=\"alert(1)\"> 'q' & \xE2\x80\xAE"
    "rtl\n";

TEST(Html, TextsEndNeitherAnElementNorAnAttribute) {
  // Source: HTML Living Standard, section 13.1.2.3 (attributes in quotes) and 13.1.4 (character references)
  const std::string text = escaped(hostile);
  for (const char* letter : {"<", ">", "\"", "'", "\n", "\xE2\x80\xAE"}) EXPECT_THAT(text, Not(HasSubstr(letter)));
  EXPECT_THAT(text, HasSubstr("&lt;/script&gt;"));
  EXPECT_THAT(text, HasSubstr("\xEF\xBF\xBD"
                              "rtl"));
}

TEST(Html, DataEndsNoScript) {
  // Source: HTML Living Standard, section 4.12.1.3 (restrictions for contents of script elements); RFC 8259, section 7
  const std::string data = data_of({{"name", std::string{hostile} + "<!--\xFF"}});
  EXPECT_THAT(data, Not(HasSubstr("<")));
  EXPECT_THAT(data, Not(HasSubstr(">")));
  EXPECT_THAT(Json::parse(data)["name"].get<std::string>(), HasSubstr("</script><img"));
}

TEST(Html, Base64IsThatOfTheStandard) {
  // Source: RFC 4648, section 10 (test vectors)
  const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                         {"f", "Zg=="},
                                                         {"fo", "Zm8="},
                                                         {"foo", "Zm9v"},
                                                         {"foob", "Zm9vYg=="},
                                                         {"fooba", "Zm9vYmE="},
                                                         {"foobar", "Zm9vYmFy"}};
  for (const auto& [plain, coded] : vectors) EXPECT_EQ(base64(plain), coded);
}

TEST(Html, BytesArePackedAsZlibHasThem) {
  // Source: RFC 1950, section 2.2: the first two bytes, here of the strongest packing, are a multiple of 31; python3's
  // zlib.compress(bytes(5000), 9) in base 64
  EXPECT_EQ(packed(std::string(5000, '\0')), "eNrtwTEBAAAAwqD1T20KP6AAAAAAgLcBE4gAAQ==");
}

TEST(Html, AScriptIsNamedInThePolicyByItsFingerprint) {
  // Source: Content Security Policy Level 3, section 2.3.1; the digest of "alert(1)" by sha256sum and base64
  Document document{"t", "", "p{}", {"alert(1)"}};
  const std::string page = html_of(document);
  EXPECT_THAT(page, HasSubstr("script-src 'sha256-bhHHL3z2vDgxUt0W3dWQOrprscmda2Y5pLsLg4GF+pI='"));
  EXPECT_THAT(page, HasSubstr("default-src 'none'"));
  EXPECT_THAT(page, Not(HasSubstr("unsafe")));
}

TEST(Html, ATableTellsItsCaptionAndItsHeads) {
  // Source: HTML Living Standard, section 4.9.1 (the table element)
  const std::string html = html_of(Table{"t", "Cuts", {"Mark", "Length"}, {{{"A"}, {"3\"", "76.2"}}}});
  EXPECT_THAT(html, HasSubstr("<caption>Cuts</caption>"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"col\">Mark</th>"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"row\">A</th><td data-sort=\"76.2\">3\"</td>"));
}

TEST(IndexPage, TellsWhatWaitsAndWhatIsNotBoughtAsTheOrderDoes) {
  // Source: by hand, what the order's text says of the same rows: four bags wait, batches are told, two boxes are
  // bought.
  report::Together all;
  takeoff::Row bags{"mortar, bags", 1.6, "ft3", 4, "bags", "1 room"},
      batches{"mortar, batches", 1.6, "ft3", 5, "batches", ""}, boxes{"tile", 17, "ft2", 2, "boxes", "1 room"};
  bags.hold = takeoff::Hold{takeoff::HangsOn::base, "floor.fall-least", "floor falls enough"};
  batches.for_sale = false;
  all.packs = {{bags, 1, 4}, {batches, 1, 5}, {boxes, 1, 2}};
  takeoff::CutRow piece{"S1", {}, "2x4", 300, 300, 89, 38, 2, "square"};
  piece.hold = takeoff::Hold{takeoff::HangsOn::bench, "load.seat-strength", "bench carries a person"};
  all.pieces = {{piece, {}}};
  const std::string page = index_page(all, {});
  EXPECT_THAT(page, Not(HasSubstr("4 bags")));
  EXPECT_THAT(page, Not(HasSubstr("5 batches")));
  EXPECT_THAT(page, HasSubstr(">HOLD</span></td>"));
  EXPECT_THAT(page, HasSubstr("not bought"));
  EXPECT_THAT(page, HasSubstr("<strong>2 boxes</strong>"));
  EXPECT_THAT(page, HasSubstr("floor falls enough"));
  EXPECT_THAT(page, HasSubstr("bench carries a person"));
}

}  // namespace
}  // namespace fallwright::page
