/// The worst cases, by subject. Inside `study` only.
#pragma once

#include <vector>

#include "facts/facts.hpp"

namespace fallwright::parts {
struct Model;
}

namespace fallwright::study {

/// What is left over across the width, and what is to spare as the base is let down.
std::vector<facts::Worst> worst_widths(const parts::Model& model, const facts::Facts& facts);

/// Mortar in the bed as set.
facts::Worst worst_bed(const parts::Model& model, const facts::Facts& facts);

}  // namespace fallwright::study
