/// A drawing in the making: figures, dimensions with their pictures, closed cuts, and the tables, blocks and layouts
/// that readers want round them. Units are those of the drawing; knows nothing of what it draws.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "exchange/dxf_tags.hpp"

namespace fallwright::exchange {

/// The page as it stands in the model, and how the drawing is measured.
struct DxfPage {
  bool metric = true;
  double scale = 1;              ///< drawing units for each paper millimetre
  double width = 0, height = 0;  ///< of the paper, in the drawing's unit at full size
  double width_mm = 0, height_mm = 0;
  drawing::Point corner;  ///< its lower left corner in the model, in drawing units
  double letter = 3;      ///< height of ordinary capitals, in drawing units
  bool on_paper() const { return width_mm > 0; }
};

struct DxfLayer {
  const char* name;
  int colour;  ///< AutoCAD colour index, one that is seen on black and on white
  const char* line_type;
  int weight;  ///< hundredths of a paper millimetre; 0: never printed
};

class DxfDrawing {
 public:
  DxfDrawing(const DxfPage& page, std::vector<DxfLayer> layers);

  void line(drawing::Point from, drawing::Point to, const char* layer);
  void circle(drawing::Point centre, double radius, const char* layer);
  void arc(drawing::Point centre, double radius, double from_deg, double to_deg, const char* layer);
  void closed(const std::vector<drawing::Point>& corners, const char* layer);
  /// `height` is the capitals'.
  void text(drawing::Point at, double height, const std::string& words, double turn_deg, drawing::Anchor anchor,
            const char* layer);
  /// Fills rings with a pattern whose lengths times `times` are drawing units. @pre every ring has three corners or
  /// more
  void hatch(const drawing::Hatch& hatch, const std::vector<std::vector<drawing::Point>>& rings, double times,
             const char* layer);
  /// A member's mark as a block with what the cut list says of it; nobody sees it, tables can be drawn from it.
  void member(drawing::Point at, const drawing::MemberMark& mark, const char* layer);
  /// Between two points, its line through `line_at` along `turn_deg`. `picture` draws it, as most readers show it; the
  /// others draw it anew from the points. `words_at` is the middle of its words.
  struct Length {
    drawing::Point from, to, line_at, words_at;
    double turn_deg = 0, length = 0;
    std::string words;
  };
  void dimension(const Length& length, const std::function<void()>& picture, const char* layer);

  /// The whole file.
  std::string file();

 private:
  int fresh() { return ++last_; }
  void keep();
  int head(const char* type, const char* layer, const char* kind);
  void open(const std::string& name, int flags);
  void close();
  void attribute(bool definition, const char* name, drawing::Point at, const std::string& value, const char* layer);
  void window(drawing::Point centre, drawing::Point looks_at, double height, int id);
  void layout();
  std::string header();
  std::string tables();
  void table(const char* name, int handle, std::size_t count);
  Tags& record(const char* type, const char* kind, const std::string& name, int handle = 0);
  void line_types();
  void styles();
  std::string objects();
  void dictionary(int handle, int owner, const std::map<std::string, int>& entries, const char* type = "DICTIONARY");

  DxfPage page_;
  std::vector<DxfLayer> layers_;
  Tags tags_;
  std::string blocks_, entities_;
  std::map<std::string, int> records_;  ///< block records by name
  int owner_ = 0, last_ = 0, dimensions_ = 0, table_ = 0;
  bool on_paper_ = false;
};

}  // namespace fallwright::exchange
