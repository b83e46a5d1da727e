#include "report/report.hpp"

namespace fallwright::report {

std::string version() {
  return FALLWRIGHT_VERSION;
}

}  // namespace fallwright::report
