// Checks a JSON value against the part of JSON Schema 2020-12 that docs/result.schema.json uses. An unknown keyword is a
// problem too, so the schema cannot outgrow the check unnoticed.
#pragma once

#include <nlohmann/json.hpp>
#include <set>
#include <string>

namespace hoofload::tests {

class SchemaCheck {
 public:
  explicit SchemaCheck(nlohmann::json schema) : root_(std::move(schema)) {}

  /// Empty if the value is valid; else the first problem with its place.
  [[nodiscard]] std::string problem(const nlohmann::json& value) const { return check(root_, value, "$"); }

 private:
  using json = nlohmann::json;

  static bool is_type(const std::string& type, const json& v) {
    if (type == "object") return v.is_object();
    if (type == "array") return v.is_array();
    if (type == "string") return v.is_string();
    if (type == "boolean") return v.is_boolean();
    if (type == "null") return v.is_null();
    if (type == "integer") return v.is_number_integer();
    return type == "number" && v.is_number();
  }

  static bool has_type(const json& types, const json& v) {
    if (types.is_string()) return is_type(types, v);
    for (const auto& type : types)
      if (is_type(type, v)) return true;
    return false;
  }

  [[nodiscard]] const json& resolved(const std::string& ref) const {
    return root_.at(json::json_pointer(ref.substr(1)));
  }

  [[nodiscard]] std::string members(const json& s, const json& v, const std::string& at) const {
    if (!v.is_object()) return "";
    for (const auto& name : s.value("required", json::array()))
      if (!v.contains(name.get<std::string>())) return at + " lacks " + name.get<std::string>();
    const json named = s.value("properties", json::object());
    for (const auto& [name, member] : v.items()) {
      const std::string here = at + "." + name;
      if (s.contains("propertyNames"))
        if (const auto p = check(s.at("propertyNames"), name, here); !p.empty()) return p;
      if (named.contains(name)) {
        if (const auto p = check(named.at(name), member, here); !p.empty()) return p;
      } else if (s.contains("additionalProperties")) {
        if (s.at("additionalProperties").is_boolean()) return here + " is not allowed";
        if (const auto p = check(s.at("additionalProperties"), member, here); !p.empty()) return p;
      }
    }
    return "";
  }

  [[nodiscard]] std::string sizes(const json& s, const json& v, const std::string& at) const {
    if (v.is_array() && v.size() < s.value("minItems", std::size_t{0})) return at + " is too short";
    if (v.is_string() && v.get_ref<const std::string&>().size() < s.value("minLength", std::size_t{0}))
      return at + " is too short";
    if (v.is_string() && s.contains("maxLength") &&
        v.get_ref<const std::string&>().size() > s.at("maxLength").get<std::size_t>())
      return at + " is too long";
    if (v.is_number() && s.contains("minimum") && v.get<double>() < s.at("minimum").get<double>())
      return at + " is too small";
    return "";
  }

  [[nodiscard]] std::string check(const json& s, const json& v, const std::string& at) const {
    static const std::set<std::string> known{
        "$schema",       "$id",   "$defs",    "$ref",      "title",      "description",
        "type",          "const", "enum",     "required",  "properties", "additionalProperties",
        "propertyNames", "items", "minItems", "minLength", "maxLength",  "minimum"};
    for (const auto& [keyword, ignored] : s.items())
      if (!known.contains(keyword)) return "unknown keyword " + keyword;
    if (s.contains("$ref"))
      if (const auto p = check(resolved(s.at("$ref")), v, at); !p.empty()) return p;
    if (s.contains("type") && !has_type(s.at("type"), v)) return at + " has the wrong type";
    if (s.contains("const") && s.at("const") != v) return at + " is not " + s.at("const").dump();
    if (s.contains("enum") && std::find(s.at("enum").begin(), s.at("enum").end(), v) == s.at("enum").end())
      return at + " is " + v.dump();
    if (s.contains("items") && v.is_array())
      for (std::size_t k = 0; k < v.size(); ++k)
        if (const auto p = check(s.at("items"), v[k], at + "[" + std::to_string(k) + "]"); !p.empty()) return p;
    if (const auto p = sizes(s, v, at); !p.empty()) return p;
    return members(s, v, at);
  }

  json root_;
};

}  // namespace hoofload::tests
