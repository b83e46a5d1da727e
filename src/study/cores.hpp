/// How much may be worked on at once.
#pragma once

namespace fallwright::study {

/// The cores that this process may run on, one at least: a queue on a cluster, or taskset, may leave it fewer than the
/// machine has.
unsigned cores();

}  // namespace fallwright::study
