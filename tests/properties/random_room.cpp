/// Prints the job file of a seed, its mirror image or its twin in millimetres: random_room 17 [mirrored | mm]
#include <cstdlib>
#include <iostream>

#include "support/random_room.hpp"

int main(int count, char** words) {
  if (count < 2) {
    std::cerr << "random_room SEED [mirrored | mm]\n";
    return 2;
  }
  const std::string way = count > 2 ? words[2] : "";
  const std::string room = fallwright::sample::random_room(static_cast<unsigned>(std::strtoul(words[1], nullptr, 10)));
  std::cout << (way == "mirrored" ? fallwright::sample::mirrored(room)
                : way == "mm"     ? fallwright::sample::in_millimetres(fallwright::sample::without_tape(room))
                                  : room);
}
