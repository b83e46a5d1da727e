/// Prints docs/job-file.md from the program's table of keys.
#include <iostream>

#include "job/describe.hpp"

int main() {
  std::cout << fallwright::job::reference_page();
}
