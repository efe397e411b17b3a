#include "viz/svg.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>

#include "viz/text.hpp"

namespace hoofload::viz::svg {
namespace {

constexpr std::string_view fonts = "'DejaVu Sans', Verdana, 'Segoe UI', sans-serif";

std::string attribute(std::string_view name, std::string_view value) {
  return " " + std::string(name) + "=\"" + escape(value) + "\"";
}

std::string attribute(std::string_view name, double value) { return attribute(name, number(value)); }

std::string point(const Vec2& p) { return number(p.x()) + " " + number(p.y()); }

std::string drawn_with(const Pen& pen) {
  std::string out = attribute("fill", pen.fill);
  if (pen.stroke != "none") {
    out += attribute("stroke", pen.stroke) + attribute("stroke-width", pen.width);
    if (!pen.dash.empty()) out += attribute("stroke-dasharray", pen.dash);
  }
  if (pen.opacity < 1) out += attribute("opacity", pen.opacity);
  return out;
}

/// A hyphen that opens a number is set as a minus sign (U+2212).
std::string with_minus_signs(std::string_view content) {
  std::string out;
  for (std::size_t k = 0; k < content.size(); ++k) {
    const bool opens = k == 0 || content[k - 1] == ' ' || content[k - 1] == '(';
    const bool number_follows = k + 1 < content.size() && content[k + 1] >= '0' && content[k + 1] <= '9';
    out += content[k] == '-' && opens && number_follows ? "\xE2\x88\x92" : std::string(1, content[k]);
  }
  return out;
}

std::string text_element(const Vec2& at, std::string_view content, const Type& type, std::string_view more) {
  constexpr std::array<std::string_view, 3> anchors{"start", "middle", "end"};
  std::string out = "<text" + attribute("x", at.x()) + attribute("y", at.y()) + attribute("font-size", type.size) +
                    attribute("fill", type.colour);
  if (type.anchor != Anchor::start) out += attribute("text-anchor", anchors[static_cast<std::size_t>(type.anchor)]);
  if (type.weight == Weight::bold) out += attribute("font-weight", "bold");
  if (type.halo > 0)
    out += attribute("stroke", "#ffffff") + attribute("stroke-width", 2 * type.halo) +
           attribute("paint-order", "stroke") + attribute("stroke-linejoin", "round");
  return out + std::string(more) + ">" + escape(with_minus_signs(content)) + "</text>\n";
}

}  // namespace

std::string number(double value) {
  if (!std::isfinite(value)) throw std::invalid_argument("a figure was given a number that is not finite");
  const double rounded = std::round(value * 100) / 100;
  if (rounded == 0) return "0";
  std::array<char, 400> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), rounded, std::chars_format::fixed, 2).ptr;
  std::string out(text.data(), end);
  while (out.back() == '0') out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out;
}

std::string escape(std::string_view text) {
  std::string out;
  for (const char c : clean_utf8(text)) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else
      out += c;
  }
  return out;
}

std::string path_data(const std::vector<Vec2>& points, std::string_view ending) {
  std::string out, last;
  for (const Vec2& p : points) {
    std::string here = point(p);
    if (here == last) continue;
    out += (out.empty() ? "M" : "L") + here;
    last = std::move(here);
  }
  return out.empty() ? out : out + std::string(ending);
}

std::string path(std::string_view data, const Pen& pen) {
  return data.empty() ? ""
                      : "<path d=\"" + std::string(data) + "\"" + drawn_with(pen) + " stroke-linejoin=\"round\"/>\n";
}

std::string polyline(const std::vector<Vec2>& points, const Pen& pen) { return path(path_data(points, ""), pen); }

std::string polygons(const std::vector<std::vector<Vec2>>& loops, const Pen& pen) {
  std::string data;
  for (const auto& loop : loops) data += path_data(loop, "Z");
  return path(data, pen);
}

std::string line(const Vec2& a, const Vec2& b, const Pen& pen) {
  return "<line" + attribute("x1", a.x()) + attribute("y1", a.y()) + attribute("x2", b.x()) + attribute("y2", b.y()) +
         drawn_with(pen) + "/>\n";
}

std::string rectangle(const Vec2& corner, const Vec2& size, const Pen& pen) {
  return "<rect" + attribute("x", corner.x()) + attribute("y", corner.y()) + attribute("width", size.x()) +
         attribute("height", size.y()) + drawn_with(pen) + "/>\n";
}

std::string circle(const Vec2& centre, double radius, const Pen& pen) {
  return "<circle" + attribute("cx", centre.x()) + attribute("cy", centre.y()) + attribute("r", radius) +
         drawn_with(pen) + "/>\n";
}

std::string text(const Vec2& at, std::string_view content, const Type& type) {
  return text_element(at, content, type, "");
}

std::string upright_text(const Vec2& at, std::string_view content, const Type& type) {
  return text_element(at, content, type, attribute("transform", "rotate(-90 " + point(at) + ")"));
}

std::string group(std::string_view title, std::string_view content) {
  return "<g><title>" + escape(title) + "</title>\n" + std::string(content) + "</g>\n";
}

std::string clipped(const Vec2& corner, const Vec2& size, std::string_view content) {
  return "<svg" + attribute("x", corner.x()) + attribute("y", corner.y()) + attribute("width", size.x()) +
         attribute("height", size.y()) + attribute("viewBox", point(corner) + " " + point(size)) +
         " overflow=\"hidden\">\n" + std::string(content) + "</svg>\n";
}

std::string document(const Vec2& size, std::string_view title, std::string_view description, std::string_view content) {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"" +
         attribute("width", size.x()) + attribute("height", size.y()) + attribute("viewBox", "0 0 " + point(size)) +
         attribute("font-family", fonts) + ">\n<title>" + escape(title) + "</title>\n<desc>" + escape(description) +
         "</desc>\n" + rectangle({0, 0}, size, {.fill = "#ffffff"}) + std::string(content) + "</svg>\n";
}

double text_width(std::string_view content, double size, Weight weight) {
  constexpr std::string_view narrow = "iljtfrI.,:;|!'()[] -";
  constexpr std::string_view wide = "mwMW%@";
  double em = 0;
  for (const char c : content) {
    if ((static_cast<unsigned char>(c) & 0xC0U) == 0x80) continue;  // continuation byte of one character
    if (narrow.find(c) != std::string_view::npos)
      em += 0.37;
    else if (wide.find(c) != std::string_view::npos)
      em += 0.95;
    else
      em += c >= 'A' && c <= 'Z' ? 0.70 : 0.62;
  }
  return em * size * (weight == Weight::bold ? 1.12 : 1.0);
}

}  // namespace hoofload::viz::svg
