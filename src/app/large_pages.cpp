/// Asks the allocator for large pages: a solid of thousands of faces lies in tens of megabytes of small pieces, and
/// whoever walks over it finds them sooner where the processor has fewer pages to look up. Where the system has none to
/// give, the allocator takes ordinary ones.
#include <mimalloc.h>

namespace {
[[maybe_unused]] const bool asked = (mi_option_enable(mi_option_large_os_pages), true);
}
