#include "report/json_as_built.hpp"

namespace fallwright::report {

Json as_built_json(const Report& report) {
  const job::AsBuilt& built = report.job.as_built;
  if (!built.any()) return nullptr;
  const auto text = [](const std::string& words) { return words.empty() ? Json(nullptr) : Json(words); };
  return {{"date", text(built.date)},
          {"by", text(built.by)},
          {"rows", list(report.judgement.as_built,
                        [](const rules::BuiltRow& row) {
                          return Json{{"what", row.what},
                                      {"designed", row.designed},
                                      {"limit", row.limit},
                                      {"built", row.built},
                                      {"result", rules::name_of(row.outcome)}};
                        })},
          {"falls", list(built.falls,
                         [](const job::BuiltFall& fall) {
                           return Json{{"surface", name_of(fall.surface)},
                                       {"facet", fall.facet ? job::name_of(*fall.facet) : "top"},
                                       {"percent", fall.fall.as_ratio() * 100}};
                         })},
          {"flood", list(built.flood,
                         [](const job::FloodReading& read) {
                           return Json{{"at", read.at}, {"level_mm", read.level.in_mm()}};
                         })},
          {"photos", list(built.photos, [](const job::Photo& photo) {
             return Json{{"file", photo.file}, {"shows", photo.shows}};
           })}};
}

}  // namespace fallwright::report
