#include "exchange/dxf.hpp"

#include <memory>

#include <dxflib/dl_dxf.h>

#include "diag/fault.hpp"

namespace fallwright::exchange {
namespace {

using drawing::LineKind;

constexpr LineKind kinds[] = {LineKind::outline, LineKind::hidden, LineKind::centre, LineKind::dimension, LineKind::text};

struct Look {
  const char* line_type;
  int weight;  ///< hundredths of a millimetre on paper
};
Look look_of(LineKind kind) {
  switch (kind) {
    case LineKind::outline: return {"CONTINUOUS", 50};
    case LineKind::hidden: return {"DASHED", 25};
    case LineKind::centre: return {"CENTER", 18};
    case LineKind::dimension: return {"CONTINUOUS", 18};
    case LineKind::text: return {"CONTINUOUS", 25};
  }
  return {"CONTINUOUS", 25};
}

constexpr int black_or_white = 7;

/// The parts of a file in the order the format wants them.
class Writer {
 public:
  Writer(const drawing::Sheet& sheet, const std::string& path)
      : sheet_{sheet}, scale_{sheet.metric ? 1 : 1 / 25.4}, out_{dxf_.out(path.c_str(), DL_Codes::AC1015)} {
    if (!out_) throw diag::MachineError{path, "cannot be written"};
  }

  void write() {
    header();
    tables();
    blocks();
    entities();
    dxf_.writeObjects(*out_);
    dxf_.writeObjectsEnd(*out_);
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
    out_->dxfReal(40, sheet_.metric ? 10 : 0.4);
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
    out_->tableLayers(6);
    dxf_.writeLayer(*out_, {"0", 0}, {"", black_or_white, 25, "CONTINUOUS", 1});
    for (const LineKind kind : kinds) {
      const Look look = look_of(kind);
      dxf_.writeLayer(*out_, {drawing::name_of(kind), 0}, {"", black_or_white, look.weight, look.line_type, 1});
    }
    out_->tableEnd();
    out_->tableStyle(1);
    dxf_.writeStyle(*out_, {"STANDARD", 0, 0, 1, 0, 0, 1, "txt", ""});
    out_->tableEnd();
    dxf_.writeView(*out_);
    dxf_.writeUcs(*out_);
    out_->tableAppid(1);
    dxf_.writeAppid(*out_, "ACAD");
    out_->tableEnd();
    dxf_.writeDimStyle(*out_, 1, 1, 1, 1, 1);
    dxf_.writeBlockRecord(*out_);
    out_->tableEnd();
    out_->sectionEnd();
  }

  void blocks() {
    out_->sectionBlocks();
    for (const char* name : {"*Model_Space", "*Paper_Space", "*Paper_Space0"}) {
      dxf_.writeBlock(*out_, {name, 0, 0, 0, 0});
      dxf_.writeEndBlock(*out_, name);
    }
    out_->sectionEnd();
  }

  static DL_Attributes on(LineKind kind) { return {drawing::name_of(kind), 256, -1, "BYLAYER", 1}; }

  void entities() {
    out_->sectionEntities();
    for (const drawing::Line& line : sheet_.lines)
      dxf_.writeLine(*out_, {scaled(line.from.x), scaled(line.from.y), 0, scaled(line.to.x), scaled(line.to.y), 0}, on(line.kind));
    for (const drawing::Arc& arc : sheet_.arcs) {
      if (arc.to_deg - arc.from_deg >= 360)
        dxf_.writeCircle(*out_, {scaled(arc.centre.x), scaled(arc.centre.y), 0, scaled(arc.radius)}, on(arc.kind));
      else
        dxf_.writeArc(*out_, {scaled(arc.centre.x), scaled(arc.centre.y), 0, scaled(arc.radius), arc.from_deg, arc.to_deg},
                      on(arc.kind));
    }
    for (const drawing::Text& text : sheet_.texts) write(text);
    out_->sectionEnd();
  }

  void write(const drawing::Text& text) {
    const double x = scaled(text.at.x), y = scaled(text.at.y), height = scaled(text.height);
    const int across = text.anchor == drawing::Anchor::middle ? 1 : text.anchor == drawing::Anchor::right ? 2 : 0;
    constexpr double radians = 0.017453292519943295;
    dxf_.writeText(*out_, {x, y, 0, x, y, 0, height, 1, 0, across, 0, text.words, "STANDARD", text.rotation_deg * radians},
                   on(LineKind::text));
  }

  const drawing::Sheet& sheet_;
  double scale_;
  DL_Dxf dxf_;
  std::unique_ptr<DL_WriterA> out_;
};

}  // namespace

void write_dxf(const drawing::Sheet& sheet, const std::string& path) { Writer{sheet, path}.write(); }

}  // namespace fallwright::exchange
