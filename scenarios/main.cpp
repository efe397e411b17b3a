// The program: real streams, the real catalogue and the real solver behind the command line.
#include "materials/catalogue.hpp"
#include "scenarios/cli.hpp"
#include "scenarios/quantity_text.hpp"

#include <unistd.h>
#include <cstdlib>
#include <iostream>

#ifndef HOOFLOAD_VERSION
#define HOOFLOAD_VERSION "unknown"
#endif

int main(int argc, char** argv) {
  using namespace hoofload;
  const char* no_colour = std::getenv("NO_COLOR");
  const bool colour = no_colour == nullptr || *no_colour == '\0';
  scenarios::Surroundings around{std::cout, std::cerr};
  around.colour_out = colour && isatty(STDOUT_FILENO) == 1;
  around.colour_err = colour && isatty(STDERR_FILENO) == 1;
  around.load_known = [] {
    return scenarios::Explainable{scenarios::material_words(materials::load_catalogue()), scenarios::quantity_topics()};
  };
  around.solve = scenarios::run_command;
  around.teach = scenarios::lesson_command;
  around.check_effects = scenarios::effects_command;
  around.serve = scenarios::serve_command;
  around.film = scenarios::film_command;
  around.sweep = scenarios::sweep_command;
  around.merge = scenarios::merge_command;
  around.export_table = scenarios::export_command;
  around.indices = scenarios::indices_command;
  around.differentiate = scenarios::derivatives_command;
  around.plot = scenarios::plot_command;
  around.version = HOOFLOAD_VERSION;
  return scenarios::run_cli({argv + 1, argv + argc}, around);
}
