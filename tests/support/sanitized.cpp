// Part of programs that are built with the address sanitizer, and of no other.
//
// The kernel's hidden lines keep rows of numbers in blocks from malloc; where a row is full, the loop that sorts it reads
// one number past its end before it looks whether the row has ended (TableauRejection::Set in HLRBRep_Data.cxx, 7.6 and
// 7.7). Nothing comes of it: the number is not used, and a common malloc has room behind every such row. The sanitizer's
// ends a row now and then where the memory that it has ends, and the program with it. So what C asks for is given a
// little more. What C++ asks for, ours with it, comes from `new`, which stays as it is.
#include <cstddef>

extern "C" {

void* __interceptor_malloc(std::size_t size);

/// A jump and no call, so that who asked is still seen: what the loader keeps is no leak.
void* malloc(std::size_t size) {
  constexpr std::size_t more = 16;
  return __interceptor_malloc(size + more < more ? size : size + more);
}
}
