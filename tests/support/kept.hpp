/// Reports that tests make the program write. ctest names a folder for them (FALLWRIGHT_REPORTS), in which they stay
/// until the last test has ended and all are held to their schema (support/reports.py).
#pragma once

#include <filesystem>
#include <string>

namespace fallwright::sample {

/// Keeps a text that is a report.json, or several one after the other; of any other text, and without ctest, nothing.
void keep_reports(const std::string& text);

/// Every report.json in a folder and below it.
void keep_reports_below(const std::filesystem::path& folder);

}  // namespace fallwright::sample
