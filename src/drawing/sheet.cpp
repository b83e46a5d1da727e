#include "drawing/sheet.hpp"

namespace fallwright::drawing {

const char* name_of(LineKind kind) {
  switch (kind) {
    case LineKind::outline:
      return "outline";
    case LineKind::hidden:
      return "hidden";
    case LineKind::centre:
      return "centre";
    case LineKind::dimension:
      return "dimension";
    case LineKind::text:
      return "text";
  }
  return "";
}

}  // namespace fallwright::drawing
