/// Prints the job file of a seed, its mirror image or its twin in millimetres, with a base of any kind:
/// random_room 17 [same | mirrored | mm] [bought | site-built]
#include <cstdlib>
#include <iostream>

#include "support/random_room.hpp"

int main(int count, char** words) {
  if (count < 2) {
    std::cerr << "random_room SEED [same | mirrored | mm] [bought | site-built]\n";
    return 2;
  }
  const std::string way = count > 2 ? words[2] : "";
  const auto seed = static_cast<unsigned>(std::strtoul(words[1], nullptr, 10));
  const std::string room =
      count > 3 ? fallwright::sample::random_room_of(words[3], seed) : fallwright::sample::random_room(seed);
  std::cout << (way == "mirrored" ? fallwright::sample::mirrored(room)
                : way == "mm"     ? fallwright::sample::in_millimetres(fallwright::sample::without_tape(room))
                                  : room);
}
