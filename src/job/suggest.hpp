/// What a person may have meant by a key or a section that is not known.
#pragma once

#include <string>

namespace fallwright::job {

/// "no such key; did you mean 'walls.spacing'?" for the path of a key, with its section.
std::string no_such_key(const std::string& path);

/// "no such section; did you mean [base]?": sections are also known by other words of the trade.
std::string no_such_section(const std::string& path);

}  // namespace fallwright::job
