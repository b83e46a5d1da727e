/// The parts of report.html, each a <section> with its heading. Inside `page` only.
#pragma once

#include <string>

#include "page/page.hpp"

namespace fallwright::page {

std::string verdict_section(const Subject& subject);   ///< one sentence, what fails, what to read next
std::string changes_section(const Subject& subject);   ///< since an older job file; empty where none is named
std::string as_built_section(const Subject& subject);  ///< the record of what was built; empty without one
std::string view_section(const Subject& subject);      ///< the picture of the assembly, where the view then stands
std::string card_section(const Subject& subject);      ///< the wet-mortar card
std::string sheets_section(const Subject& subject);
std::string checks_section(const Subject& subject);
std::string lists_section(const Subject& subject);  ///< cuts, buy list, set-out, order of work

/// A sign and a word for an outcome, told by shape and words as well as by colour.
std::string badge_of(rules::Outcome outcome);

/// What is neither bought nor cut while a check fails.
std::string held_badge();

/// Of a row of a buy list how much to buy, in bold; HOLD of what waits, and "not bought" of what is told alone.
std::string buy_html(const takeoff::Row& row);

/// A section with its heading, for `id` in the page's list of contents.
std::string section(const std::string& id, const std::string& heading, const std::string& body);

}  // namespace fallwright::page
