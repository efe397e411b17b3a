// Names of a case file to keys: which key each line of a section sets, and what is wrong with the names.
#pragma once

#include "scenarios/case_keys.hpp"
#include "scenarios/case_text.hpp"

#include <string>
#include <vector>

namespace hoofload::scenarios {

/// One line "key = value": of a case key, or (key null) of a catalogue parameter under [materials].
struct Assignment {
  const Key* key;
  const MaterialWord* material;
  const ParameterWord* parameter;
  std::string written;  ///< "shoe.setback"
  Location at;          ///< of the key
  const Value* value;   ///< in the tree
};

/// What naming needs, and the errors found.
struct Sections {
  const std::string& file;
  const MaterialWords& materials;
  CaseErrors errors;
};

struct SectionReading {
  std::vector<Assignment> assignments;
  std::vector<const Value*> options;  ///< tables of the tree, in order
};

/// The top level of the file.
[[nodiscard]] SectionReading read_root(Sections& sections, const Table& root);

/// The inside of one [[option]].
[[nodiscard]] std::vector<Assignment> read_option(Sections& sections, const Table& option);

}  // namespace hoofload::scenarios
