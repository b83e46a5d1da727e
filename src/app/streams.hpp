/// The three streams every program is given, which may be closed, full, or read by nobody.
#pragma once

namespace fallwright::app {

/// A write that cannot be done fails where it is done, and ends nothing by a signal; a stream that was given closed
/// stays unusable instead of lending its number to the next file that is opened. To be called first of all.
void guard_streams();

/// Whether all that was printed went out. Says so on standard error where it did not.
bool all_is_out();

}  // namespace fallwright::app
