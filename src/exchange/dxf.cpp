#include "exchange/dxf.hpp"

#include <cstdio>
#include <fstream>
#include <iterator>
#include <memory>

#include <dxflib/dl_dxf.h>

#include "diag/fault.hpp"
#include "units/letters.hpp"

namespace fallwright::exchange {
namespace {

using drawing::LineKind;

const char* line_type_of(LineKind kind) {
  if (kind == LineKind::hidden || kind == LineKind::correction) return "DASHED";
  return kind == LineKind::centre ? "CENTER" : "CONTINUOUS";
}

constexpr int black_or_white = 7;

/// A letter by its number, as readers of this version know it; beyond the first 65,536 as the two halves of UTF-16.
std::string by_number(char32_t letter) {
  if (letter > 0xffff)
    return by_number(0xd800 + ((letter - 0x10000) >> 10)) + by_number(0xdc00 + ((letter - 0x10000) & 0x3ff));
  char escape[16];
  std::snprintf(escape, sizeof escape, "\\U+%04X", static_cast<unsigned>(letter));
  return escape;
}

/// A sign of the trade as the format's own code, or nothing.
const char* sign(char32_t letter) {
  return letter == 0xb0 ? "%%d" : letter == 0xb1 ? "%%p" : letter == 0xd8 || letter == 0x2300 ? "%%c" : nullptr;
}

/// Signs as codes, any other letter beyond ASCII as its number. What would begin such a code in the words themselves,
/// a backslash, a caret, two percent signs, is written so that it reads back as it was.
std::string encoded(const std::string& words) {
  const std::u32string letters = units::letters_of(units::on_one_line(words));
  std::string out;
  for (std::size_t i = 0; i < letters.size(); ++i) {
    const char32_t letter = letters[i], before = i > 0 ? letters[i - 1] : U' ',
                   next = i + 1 < letters.size() ? letters[i + 1] : U' ';
    if (sign(letter))
      out += sign(letter);
    else if (letter == U'^')
      out += "^ ";
    else if (letter == U'%' && (next == U'%' || before == U'%' || sign(next)))
      out += "%%037";
    else if (letter >= 0x80 || (letter == U'\\' && (next == U'U' || next == U'M')))
      out += by_number(letter);
    else
      out += static_cast<char>(letter);
  }
  return out;
}

/// Whether a file was written to its end: the library that writes it keeps a full disk to itself.
bool is_whole(const std::string& path) {
  std::ifstream in{path, std::ios::binary};
  std::string end(4, ' ');
  in.seekg(-static_cast<std::streamoff>(end.size()), std::ios::end);
  in.read(end.data(), static_cast<std::streamsize>(end.size()));
  return in && end == "EOF\n";
}

/// The parts of a file in the order the format wants them. The oldest version in use is written (R12): every reader
/// takes it, and it needs none of the tables of handles and owners that later ones want. $INSUNITS is younger; readers
/// that do not know it skip it, so the sheet says its unit in words as well.
class Writer {
 public:
  Writer(const drawing::Sheet& sheet, const std::string& path)
      : sheet_{sheet}, scale_{sheet.metric ? 1 : 1 / 25.4}, out_{dxf_.out(path.c_str(), DL_Codes::AC1009)} {
    if (!out_) throw diag::MachineError{path, "cannot be written"};
  }

  void write() {
    header();
    tables();
    blocks();
    entities();
    out_->dxfEOF();
    out_->close();
  }

 private:
  double scaled(double mm) const { return mm * scale_; }

  void header() {
    dxf_.writeHeader(*out_);
    out_->dxfString(9, "$INSUNITS");
    out_->dxfInt(70, sheet_.metric ? 4 : 1);
    out_->dxfString(9, "$MEASUREMENT");
    out_->dxfInt(70, sheet_.metric ? 1 : 0);
    out_->dxfString(9, "$LTSCALE");
    out_->dxfReal(40, sheet_.metric ? 2 : 0.08);
    out_->sectionEnd();
  }

  void tables() {
    out_->sectionTables();
    dxf_.writeVPort(*out_);
    out_->tableLinetypes(5);
    // Pattern lengths in the format's usual base of drawing units; $LTSCALE brings them to the sheet's unit.
    double dashes[] = {5, -2.5}, centre[] = {10, -2, 2, -2};
    dxf_.writeLinetype(*out_, {"BYBLOCK", "BYBLOCK", 0, 0, 0});
    dxf_.writeLinetype(*out_, {"BYLAYER", "BYLAYER", 0, 0, 0});
    dxf_.writeLinetype(*out_, {"CONTINUOUS", "Continuous", 0, 0, 0});
    dxf_.writeLinetype(*out_, {"DASHED", "Dashed", 0, 2, 7.5, dashes});
    dxf_.writeLinetype(*out_, {"CENTER", "Centre line", 0, 4, 16, centre});
    out_->tableEnd();
    out_->tableLayers(static_cast<int>(1 + std::size(drawing::all_line_kinds)));
    dxf_.writeLayer(*out_, {"0", 0}, {"", black_or_white, -1, "CONTINUOUS", 1});
    for (const LineKind kind : drawing::all_line_kinds)
      dxf_.writeLayer(*out_, {drawing::name_of(kind), 0}, {"", black_or_white, -1, line_type_of(kind), 1});
    out_->tableEnd();
    out_->tableStyle(1);
    dxf_.writeStyle(*out_, {"STANDARD", 0, 0, 1, 0, 0, 1, "txt", ""});
    out_->tableEnd();
    out_->tableAppid(1);
    dxf_.writeAppid(*out_, "ACAD");
    out_->tableEnd();
    out_->sectionEnd();
  }

  /// The format wants the section; nothing in these sheets is repeated.
  void blocks() {
    out_->sectionBlocks();
    out_->sectionEnd();
  }

  static DL_Attributes on(LineKind kind) { return {drawing::name_of(kind), 256, -1, "BYLAYER", 1}; }

  void entities() {
    out_->sectionEntities();
    for (const drawing::Line& line : sheet_.lines)
      dxf_.writeLine(*out_, {scaled(line.from.x), scaled(line.from.y), 0, scaled(line.to.x), scaled(line.to.y), 0},
                     on(line.kind));
    for (const drawing::Arc& arc : sheet_.arcs) {
      if (arc.to_deg - arc.from_deg >= 360)
        dxf_.writeCircle(*out_, {scaled(arc.centre.x), scaled(arc.centre.y), 0, scaled(arc.radius)}, on(arc.kind));
      else
        dxf_.writeArc(*out_,
                      {scaled(arc.centre.x), scaled(arc.centre.y), 0, scaled(arc.radius), arc.from_deg, arc.to_deg},
                      on(arc.kind));
    }
    for (const drawing::Text& text : sheet_.texts) write(text);
    out_->sectionEnd();
  }

  void write(const drawing::Text& text) {
    const double x = scaled(text.at.x), y = scaled(text.at.y), height = scaled(text.height);
    const int across = text.anchor == drawing::Anchor::middle ? 1 : text.anchor == drawing::Anchor::right ? 2 : 0;
    constexpr double radians = 0.017453292519943295;
    dxf_.writeText(
        *out_,
        {x, y, 0, x, y, 0, height, 1, 0, across, 0, encoded(text.words), "STANDARD", text.rotation_deg * radians},
        on(LineKind::text));
  }

  const drawing::Sheet& sheet_;
  double scale_;
  DL_Dxf dxf_;
  std::unique_ptr<DL_WriterA> out_;
};

}  // namespace

void write_dxf(const drawing::Sheet& sheet, const std::string& path) {
  Writer{sheet, path}.write();
  if (!is_whole(path)) throw diag::MachineError{path, "cannot be written to its end"};
}

}  // namespace fallwright::exchange
