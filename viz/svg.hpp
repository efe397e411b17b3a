// A small SVG writer: each function returns one element as text, a figure is their sum. Coordinates are pixels, y down.
// No ids, patterns or style sheets, so that several figures can stand in one page without disturbing each other.
#pragma once

#include <Eigen/Core>
#include <string>
#include <string_view>
#include <vector>

namespace hoofload::viz::svg {

using Vec2 = Eigen::Vector2d;

/// How a shape is drawn; `dash` as in stroke-dasharray, empty for a full line.
struct Pen {
  std::string stroke = "none";
  double width = 1;
  std::string fill = "none";
  std::string dash = {};
  double opacity = 1;
};

enum class Anchor { start, middle, end };
enum class Weight { normal, bold };

/// How a text is drawn; `halo` is a white rim that keeps it legible over a field.
struct Type {
  double size = 12;
  std::string colour = "#222222";
  Anchor anchor = Anchor::start;
  Weight weight = Weight::normal;
  double halo = 0;
};

/// At most two decimals, no trailing zeros, never "-0". Throws std::invalid_argument if not finite.
[[nodiscard]] std::string number(double value);

/// Text made harmless for XML 1.0 content and attributes; invalid UTF-8 and control characters become U+FFFD.
[[nodiscard]] std::string escape(std::string_view text);

/// "M x y L x y ... Z": runs of points that print alike are written once.
[[nodiscard]] std::string path_data(const std::vector<Vec2>& points, std::string_view ending);

[[nodiscard]] std::string path(std::string_view data, const Pen& pen);
[[nodiscard]] std::string polyline(const std::vector<Vec2>& points, const Pen& pen);
/// Several closed loops as one shape (non-zero rule: a loop that turns the other way is a hole).
[[nodiscard]] std::string polygons(const std::vector<std::vector<Vec2>>& loops, const Pen& pen);
[[nodiscard]] std::string line(const Vec2& a, const Vec2& b, const Pen& pen);
[[nodiscard]] std::string rectangle(const Vec2& corner, const Vec2& size, const Pen& pen);
[[nodiscard]] std::string circle(const Vec2& centre, double radius, const Pen& pen);
[[nodiscard]] std::string text(const Vec2& at, std::string_view content, const Type& type);
/// Text turned a quarter to the left about `at`, for vertical axes.
[[nodiscard]] std::string upright_text(const Vec2& at, std::string_view content, const Type& type);

/// A group whose <title> names it to readers of the file and of the page.
[[nodiscard]] std::string group(std::string_view title, std::string_view content);
/// Content cut off at a rectangle, in unchanged coordinates.
[[nodiscard]] std::string clipped(const Vec2& corner, const Vec2& size, std::string_view content);

/// The whole file; title and description are its alternative text.
[[nodiscard]] std::string document(const Vec2& size, std::string_view title, std::string_view description,
                                   std::string_view content);

/// Estimated width in pixels, on the wide side for the fonts that `document` asks for.
[[nodiscard]] double text_width(std::string_view content, double size, Weight weight = Weight::normal);

}  // namespace hoofload::viz::svg
