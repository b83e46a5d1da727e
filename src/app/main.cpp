#include "app/app.hpp"

int main(int argc, char** argv) {
  return fallwright::app::run(argc, argv);
}
