// Values put into a parsed case from outside, at its top level: what a sweep or a study draws. Options inherit them
// unless they set the same key themselves.
#pragma once

#include "scenarios/case_keys.hpp"
#include "scenarios/case_text.hpp"

#include <optional>
#include <string>
#include <vector>

namespace hoofload::scenarios {

/// What can be put in: a case key or one parameter of a catalogue material.
struct Input {
  std::string name;          ///< "shoe.setback", "materials.sole horn.E"
  const Key* key = nullptr;  ///< null: a parameter
  std::string material, parameter;
  std::string unit;  ///< of its numbers, "" for none

  /// True for what the farrier chooses ([shoe], [nails], [pad], [packing]): the tendon is set on the foot without it.
  [[nodiscard]] bool is_shoeing() const;
};

/// The input of that name, synonyms included; nothing if there is none or its kind cannot be varied (text, lists).
[[nodiscard]] std::optional<Input> find_input(std::string_view name, const MaterialWords& materials);

/// An input and its value, without its unit if it is a number: "3.2", "open", "true".
struct InputValue {
  Input input;
  std::string value;
};

/// The value as a case file would hold it.
[[nodiscard]] Value case_value(const Input& input, const std::string& value);

/// Puts the settings into the tree; a value that the file has there is replaced.
void overlay(CaseText& tree, const std::vector<InputValue>& settings, const MaterialWords& materials);

}  // namespace hoofload::scenarios
