#include "exchange/dxf_drawing.hpp"

#include <cmath>
#include <numeric>
#include <utility>

namespace fallwright::exchange {
namespace {

using drawing::Point;

/// AutoCAD 2007: the first version whose texts are UTF-8, and one that every reader tried takes.
constexpr const char* version = "AC1021";
constexpr const char* style_name = "FW";

/// Handles that others point at; the counter begins after them.
enum Handle {
  vport_table = 1,
  line_type_table,
  layer_table,
  style_table,
  view_table,
  ucs_table,
  appid_table,
  dimstyle_table,
  record_table,
  root,
  groups,
  layouts,
  plot_styles,
  plot_normal,
  model,
  paper,
  model_layout,
  paper_layout,
  letters_style,
  first_free = 0x30
};

constexpr const char* model_space = "*Model_Space";
constexpr const char* paper_space = "*Paper_Space";

}  // namespace

DxfDrawing::DxfDrawing(const DxfPage& page, std::vector<DxfLayer> layers)
    : page_{page}, layers_{std::move(layers)}, last_{first_free} {
  for (const char* name : {model_space, paper_space}) open(name, 0), close();
}

void DxfDrawing::keep() {
  entities_ += tags_.take();
}

/// What every entity begins with.
int DxfDrawing::head(const char* type, const char* layer, const char* kind) {
  const int handle = fresh();
  tags_(0, type)(5, hex(handle))(330, hex(owner_))(100, "AcDbEntity");
  if (on_paper_) tags_(67, 1);
  tags_(8, layer);
  if (*kind) tags_(100, kind);
  return handle;
}

void DxfDrawing::open(const std::string& name, int flags) {
  keep();
  owner_ = name == model_space ? static_cast<int>(model) : name == paper_space ? static_cast<int>(paper) : fresh();
  records_[name] = owner_;
  on_paper_ = owner_ == paper;
  head("BLOCK", "0", "AcDbBlockBegin");
  tags_(2, name)(70, flags).at(10, {0, 0})(3, name)(1, "");
}

void DxfDrawing::close() {
  head("ENDBLK", "0", "AcDbBlockEnd");
  blocks_ += tags_.take();
  owner_ = model, on_paper_ = false;
}

void DxfDrawing::line(Point from, Point to, const char* layer) {
  head("LINE", layer, "AcDbLine");
  tags_.at(10, from).at(11, to);
}

void DxfDrawing::circle(Point centre, double radius, const char* layer) {
  head("CIRCLE", layer, "AcDbCircle");
  tags_.at(10, centre)(40, radius);
}

void DxfDrawing::arc(Point centre, double radius, double from_deg, double to_deg, const char* layer) {
  head("ARC", layer, "AcDbCircle");
  tags_.at(10, centre)(40, radius)(100, "AcDbArc")(50, from_deg)(51, to_deg);
}

void DxfDrawing::closed(const std::vector<Point>& corners, const char* layer) {
  head("LWPOLYLINE", layer, "AcDbPolyline");
  tags_(90, static_cast<int>(corners.size()))(70, 1);
  for (const Point& p : corners) tags_.flat(10, p);
}

void DxfDrawing::text(Point at, double height, const std::string& words, double turn_deg, drawing::Anchor anchor,
                      const char* layer) {
  // Another font's letters: a little narrower still, so that none run out of the room made for ours.
  constexpr double as_wide_as_on_paper = 0.97 * drawing::letters_narrowed;
  const int across = anchor == drawing::Anchor::middle ? 1 : anchor == drawing::Anchor::right ? 2 : 0;
  head("TEXT", layer, "AcDbText");
  tags_.at(10, at)(40, height)(1, dxf_words(words))(50, turn_deg)(41, as_wide_as_on_paper)(7, style_name)(72, across);
  if (across) tags_.at(11, at);
  tags_(100, "AcDbText");
}

namespace {

/// How a pattern is turned and enlarged from what readers have under its name.
struct Named {
  double turn_deg = 0, times = 1;
};

Named as_named(const drawing::Hatch& hatch) {
  if (std::string{hatch.name} != "ANSI31") return {0, 0.5};  // dots: with LibreCAD they lie twice as far apart
  constexpr double lies = 45, apart = M_SQRT2;  // with LibreCAD, whose file of it has lines 2 mm one above the other
  const drawing::Hatch::Family& family = hatch.families.front();
  // LibreCAD's print looked as if it took degrees for radians: 6 turns and 270 degrees more are, read either way,
  // square to what lies there, within 1.3 degrees.
  const bool square_to_it = std::abs(std::fmod(family.angle_deg - lies + 360, 180) - 90) < 1e-9;
  return {square_to_it ? 2430.0 : 0.0, family.across / apart};
}

}  // namespace

void DxfDrawing::hatch(const drawing::Hatch& hatch, const std::vector<std::vector<Point>>& rings, double times,
                       const char* layer) {
  constexpr int outer_and_closed = 3, odd_parity = 0, by_name = 1;
  head("HATCH", layer, "AcDbHatch");
  tags_.at(10, {0, 0}).at(210, {0, 0}, 1)(2, hatch.name)(70, 0)(71, 0)(91, static_cast<int>(rings.size()));
  for (const auto& ring : rings) {
    tags_(92, outer_and_closed)(72, 0)(73, 1)(93, static_cast<int>(ring.size()));
    for (const Point& p : ring) tags_.flat(10, p);
    tags_(97, 0);
  }
  const Named named = as_named(hatch);
  tags_(75, odd_parity)(76, by_name)(52, named.turn_deg)(41, named.times * times)(77, 0);
  tags_(78, static_cast<int>(hatch.families.size()));
  for (const drawing::Hatch::Family& family : hatch.families) {
    const double turn = family.angle_deg * M_PI / 180, c = std::cos(turn) * times, s = std::sin(turn) * times;
    tags_(53, family.angle_deg)(43, 0.0)(44, 0.0)(45, family.along * c - family.across * s);
    tags_(46, family.along * s + family.across * c)(79, static_cast<int>(family.dashes.size()));
    for (const double dash : family.dashes) tags_(49, dash * times);
  }
  tags_(98, 0);
}

/// Invisible and tiny: some readers show the names of attributes over their blocks.
void DxfDrawing::attribute(bool definition, const char* name, Point at, const std::string& value, const char* layer) {
  constexpr int invisible = 1;
  head(definition ? "ATTDEF" : "ATTRIB", layer, "AcDbText");
  tags_.at(10, at)(40, 0.1)(1, dxf_words(value))(7, style_name);
  tags_(100, definition ? "AcDbAttributeDefinition" : "AcDbAttribute");
  if (definition) tags_(3, name);
  tags_(2, name)(70, invisible);
}

void DxfDrawing::member(Point at, const drawing::MemberMark& mark, const char* layer) {
  constexpr const char* block = "FW-MEMBER";
  const std::pair<const char*, std::string> values[] = {
      {"MARK", mark.mark}, {"STOCK", mark.stock}, {"LENGTH", mark.length}};
  if (!records_.contains(block)) {
    open(block, 2);
    for (const auto& [name, value] : values) attribute(true, name, {0, 0}, "", layer);
    close();
  }
  const int self = head("INSERT", layer, "AcDbBlockReference"), outer = std::exchange(owner_, self);
  tags_(66, 1)(2, block).at(10, at);
  for (const auto& [name, value] : values) attribute(false, name, at, value, layer);
  head("SEQEND", layer, "");
  owner_ = outer;
}

void DxfDrawing::dimension(const Length& length, const std::function<void()>& picture, const char* layer) {
  constexpr int linear = 0, block_is_its_own = 32, words_where_they_stand = 128;
  const std::string block = "*D" + std::to_string(++dimensions_);
  open(block, 1);
  picture();
  close();
  head("DIMENSION", layer, "AcDbDimension");
  tags_(2, block).at(10, length.line_at).at(11, length.words_at);
  tags_(70, linear | block_is_its_own | words_where_they_stand)(71, 5)(42, length.length)(1, dxf_words(length.words));
  tags_(3, style_name)(100, "AcDbAlignedDimension").at(13, length.from).at(14, length.to)(50, length.turn_deg);
  tags_(100, "AcDbRotatedDimension");
}

void DxfDrawing::window(Point centre, Point looks_at, double height, int id) {
  owner_ = paper, on_paper_ = true;
  head("VIEWPORT", "FW-WINDOW", "AcDbViewport");
  tags_.at(10, centre)(40, page_.width)(41, page_.height)(68, id)(69, id).flat(12, looks_at).flat(13, {0, 0});
  tags_.flat(14, {10, 10}).flat(15, {10, 10}).at(16, {0, 0}, 1).at(17, {0, 0})(42, 50.0)(43, 0.0)(44, 0.0)(45, height);
  tags_(50, 0.0)(51, 0.0)(72, 1000)(90, 0xC000)(1, "")(281, 0);
}

/// The page stands in the model, where every reader shows it; the layout is one window on it. The first window is the
/// paper itself.
void DxfDrawing::layout() {
  keep();
  const Point middle{page_.width / 2, page_.height / 2};
  const double paper_mm = page_.width / page_.width_mm, times = page_.scale / paper_mm;
  window(middle, middle, page_.height, 1);
  window(middle, {page_.corner.x + middle.x * times, page_.corner.y + middle.y * times}, page_.height * times, 2);
  keep();
}

std::string DxfDrawing::file() {
  if (page_.on_paper()) layout();
  keep();
  // Tables and objects take handles too, and the header tells the next free one: it is written last.
  const std::string tables_text = tables(), objects_text = objects();
  return header() + "0\nSECTION\n2\nCLASSES\n0\nENDSEC\n" + tables_text + "0\nSECTION\n2\nBLOCKS\n" + blocks_ +
         "0\nENDSEC\n0\nSECTION\n2\nENTITIES\n" + entities_ + "0\nENDSEC\n" + objects_text + "0\nEOF\n";
}

std::string DxfDrawing::header() {
  tags_(0, "SECTION")(2, "HEADER")(9, "$ACADVER")(1, version)(9, "$DWGCODEPAGE")(3, "ANSI_1252");
  tags_(9, "$HANDSEED")(5, hex(last_ + 1));
  const std::pair<const char*, int> choices[] = {{"$INSUNITS", page_.metric ? 4 : 1},
                                                 {"$MEASUREMENT", page_.metric},
                                                 {"$PSLTSCALE", 0},
                                                 {"$TILEMODE", 1},
                                                 {"$DIMTAD", 1},
                                                 {"$DIMDEC", page_.metric ? 0 : 4}};
  for (const auto& [name, value] : choices) tags_(9, name)(70, value);
  // Dashes and the parts of dimensions are in paper millimetres, brought to the drawing's unit by the scale.
  const std::pair<const char*, double> sizes[] = {{"$LTSCALE", page_.scale},
                                                  {"$DIMSCALE", page_.scale},
                                                  {"$DIMTXT", page_.letter / page_.scale},
                                                  {"$DIMASZ", 2.5},
                                                  {"$DIMEXE", 1.5},
                                                  {"$DIMEXO", 1.5},
                                                  {"$DIMTSZ", 1.2},
                                                  {"$DIMGAP", 1.0}};
  for (const auto& [name, value] : sizes) tags_(9, name)(40, value);
  if (page_.on_paper()) {  // where a reader that prints the model puts it
    const double paper_mm = page_.width / page_.width_mm, times = page_.scale / paper_mm;
    tags_(9, "$PLIMMIN").flat(10, {0, 0})(9, "$PLIMMAX").flat(10, {page_.width, page_.height});
    tags_(9, "$PSVPSCALE")(40, 1 / times);
    tags_(9, "$PINSBASE").at(10, {-page_.corner.x / times, -page_.corner.y / times});
  }
  tags_(9, "$TEXTSTYLE")(7, style_name)(9, "$DIMSTYLE")(2, style_name)(9, "$DIMTXSTY")(7, style_name);
  return tags_(0, "ENDSEC").take();
}

void DxfDrawing::table(const char* name, int handle, std::size_t count) {
  if (table_) tags_(0, "ENDTAB");
  table_ = handle;
  tags_(0, "TABLE")(2, name)(5, hex(handle))(330, 0)(100, "AcDbSymbolTable")(70, static_cast<int>(count));
}

Tags& DxfDrawing::record(const char* type, const char* kind, const std::string& name, int handle) {
  tags_(0, type)(std::string{type} == "DIMSTYLE" ? 105 : 5, hex(handle ? handle : fresh()))(330, hex(table_));
  return tags_(100, "AcDbSymbolTableRecord")(100, kind)(2, name);
}

/// Names of short dashes that readers with types of their own know, with our own lengths in paper millimetres.
void DxfDrawing::line_types() {
  struct LineType {
    const char *name, *words;
    std::vector<double> dashes;
  };
  const std::vector<LineType> types{{"ByBlock", "", {}},
                                    {"ByLayer", "", {}},
                                    {"Continuous", "Solid line", {}},
                                    {"DASHEDTINY", "Hidden _ _ _", {3, -1}},
                                    {"DASHED2", "Limit __ __ __", {6, -2}},
                                    {"DOTTINY", "Existing . . .", {0.4, -0.9}},
                                    {"CENTERTINY", "Centre ___ _ ___", {9, -1, 0.5, -1}},
                                    {"DIVIDETINY", "Phantom ___ _ _ ___", {9, -1, 0.5, -1, 0.5, -1}}};
  table("LTYPE", line_type_table, types.size());
  for (const LineType& type : types) {
    const double whole = std::accumulate(type.dashes.begin(), type.dashes.end(), 0.0,
                                         [](double sum, double dash) { return sum + std::abs(dash); });
    record("LTYPE", "AcDbLinetypeTableRecord", type.name)(70, 0)(3, type.words)(72, 65);
    tags_(73, static_cast<int>(type.dashes.size()))(40, whole);
    for (const double dash : type.dashes) tags_(49, dash)(74, 0);
  }
}

void DxfDrawing::styles() {
  table("STYLE", style_table, 2);
  for (const char* name : {"Standard", style_name})
    record("STYLE", "AcDbTextStyleTableRecord", name, name == style_name ? letters_style : 0)(70, 0)(40, 0.0)(41, 1.0)(
        50, 0.0)(71, 0)(42, page_.letter)(3, "isocp.shx")(4, "");
  table("VIEW", view_table, 0);
  table("UCS", ucs_table, 0);
  table("APPID", appid_table, 1);
  record("APPID", "AcDbRegAppTableRecord", "ACAD")(70, 0);
  table("DIMSTYLE", dimstyle_table, 2);
  tags_(100, "AcDbDimStyleTable")(71, 0);
  for (const char* name : {"Standard", style_name}) {
    record("DIMSTYLE", "AcDbDimStyleTableRecord", name)(70, 0)(40, page_.scale)(41, 2.5)(42, 1.5)(43, 8.0)(44, 1.5);
    tags_(140, page_.letter / page_.scale)(142, 1.2)(147, 1.0)(73, 1)(74, 1)(77, 1)(78, 8)(271, page_.metric ? 0 : 4);
    tags_(340, hex(letters_style));
  }
}

std::string DxfDrawing::tables() {
  tags_(0, "SECTION")(2, "TABLES");
  table("VPORT", vport_table, 1);
  const double paper_mm = page_.on_paper() ? page_.width / page_.width_mm : 1;
  const Point middle{page_.corner.x + page_.width * page_.scale / paper_mm / 2,
                     page_.corner.y + page_.height * page_.scale / paper_mm / 2};
  record("VPORT", "AcDbViewportTableRecord", "*Active")(70, 0).flat(10, {0, 0}).flat(11, {1, 1}).flat(12, middle);
  tags_.flat(13, {0, 0}).flat(14, {10, 10}).flat(15, {10, 10}).at(16, {0, 0}, 1).at(17, {0, 0});
  tags_(40, page_.on_paper() ? page_.height * page_.scale / paper_mm : 100 * page_.letter)(41, 1.5)(42, 50.0);
  line_types();
  table("LAYER", layer_table, layers_.size());
  for (const DxfLayer& layer : layers_) {
    record("LAYER", "AcDbLayerTableRecord", layer.name)(70, 0)(62, layer.colour)(6, layer.line_type);
    tags_(290, layer.weight > 0 ? 1 : 0)(370, layer.weight)(390, hex(plot_normal));
  }
  styles();
  table("BLOCK_RECORD", record_table, records_.size());
  for (const auto& [name, handle] : records_)
    record("BLOCK_RECORD", "AcDbBlockTableRecord", name, handle)(340, hex(handle == model   ? model_layout
                                                                          : handle == paper ? paper_layout
                                                                                            : 0));
  return tags_(0, "ENDTAB")(0, "ENDSEC").take();
}

void DxfDrawing::dictionary(int handle, int owner, const std::map<std::string, int>& entries, const char* type) {
  tags_(0, type)(5, hex(handle))(330, hex(owner))(100, "AcDbDictionary")(281, 1);
  for (const auto& [name, to] : entries) tags_(3, name)(350, hex(to));
}

std::string DxfDrawing::objects() {
  tags_(0, "SECTION")(2, "OBJECTS");
  dictionary(root, 0, {{"ACAD_GROUP", groups}, {"ACAD_LAYOUT", layouts}, {"ACAD_PLOTSTYLENAME", plot_styles}});
  dictionary(groups, root, {});
  dictionary(layouts, root, {{"Model", model_layout}, {"Sheet", paper_layout}});
  dictionary(plot_styles, root, {{"Normal", plot_normal}}, "ACDBDICTIONARYWDFLT");
  tags_(100, "AcDbDictionaryWithDefault")(340, hex(plot_normal));
  tags_(0, "ACDBPLACEHOLDER")(5, hex(plot_normal))(330, hex(plot_styles));
  for (const bool sheet : {false, true}) {
    tags_(0, "LAYOUT")(5, hex(sheet ? paper_layout : model_layout))(330, hex(layouts))(100, "AcDbPlotSettings");
    tags_(1, "")(2, "none_device")(4, "")(6, "");
    for (const int code : {40, 41, 42, 43, 46, 47, 48, 49, 140, 141, 148, 149}) tags_(code, 0.0);
    tags_(44, page_.width_mm)(45, page_.height_mm)(142, 1.0)(143, 1.0)(147, 1.0)(70, sheet ? 688 : 1712);
    tags_(72, page_.metric ? 1 : 0)(73, 0)(74, 5)(7, "")(75, 16);
    tags_(100, "AcDbLayout")(1, sheet ? "Sheet" : "Model")(70, 1)(71, sheet ? 1 : 0).flat(10, {0, 0});
    tags_.flat(11, {page_.width, page_.height}).at(12, {0, 0}).at(14, {0, 0}).at(15, {page_.width, page_.height});
    tags_(146, 0.0).at(13, {0, 0}).at(16, {1, 0}).at(17, {0, 1})(76, 0)(330, hex(sheet ? paper : model));
  }
  return tags_(0, "ENDSEC").take();
}

}  // namespace fallwright::exchange
