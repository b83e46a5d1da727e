#include "job/describe.hpp"
#include "page/assets.hpp"
#include "page/html.hpp"
#include "page/page.hpp"

namespace fallwright::page {

std::string form_page(const std::string& job, const std::string& file) {
  Document document;
  document.title = "Job file, as a form";
  const std::string empty = job.empty() ? "Empty the form" : "Begin with the job again";
  const std::string actions =
      "<button type=\"button\" id=\"save\">Save the job file</button>"
      "<label class=\"button\" for=\"open\">Open a job file</label>"
      "<input type=\"file\" id=\"open\" accept=\".toml\" class=\"away\">"
      "<button type=\"button\" id=\"empty\">" +
      empty + "</button>";
  document.body =
      element("header",
              element("p", "fallwright, before the room is built") + element("h1", "The room, question by question")) +
      element("nav", "", " id=\"walk\" aria-label=\"Steps\"") + "\n" +
      element("main",
              element("p",
                      "Type lengths as on a tape: 5 ft 4-1/2 in, 64-1/2, 1640 mm. What is left empty is not known, or "
                      "as usual. What is typed stays on this device until it is emptied.") +
                  element("noscript", element("p", "This form needs scripts. docs/survey-form.md is one for paper.")) +
                  element("div", "", " id=\"steps\"") +
                  element("div",
                          std::string{room_svg} + std::string{floor_svg} + std::string{wall_svg} +
                              std::string{drain_svg} + std::string{bench_svg},
                          " hidden")) +
      "\n" +
      element("div", element("output", "", " id=\"told\" aria-live=\"polite\"") + element("p", actions),
              " class=\"bar\"") +
      "\n";
  document.style = form_css;
  document.data = {{"key-table", data_of(Json::parse(job::key_table()))},
                   {"job", data_of({{"text", job}, {"file", file}})}};
  document.scripts = {form_js};
  return html_of(document);
}

}  // namespace fallwright::page
