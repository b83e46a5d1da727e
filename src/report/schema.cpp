#include "report/report.hpp"

namespace fallwright::report {

std::string json_schema() {
  return
#include "report_schema.inc"
      ;
}

}  // namespace fallwright::report
