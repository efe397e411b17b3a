#include "viz/curve_figure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "viz/curve_style.hpp"
#include "viz/labels.hpp"

namespace hoofload::viz {
namespace {

Range data_range(const std::vector<Curve>& curves, const std::vector<double> Curve::*values) {
  Range range{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  for (const auto& curve : curves) {
    if (curve.x.size() != curve.y.size())
      throw std::invalid_argument("curve \"" + curve.name + "\" has x and y of different length");
    for (const double v : curve.*values)
      if (std::isfinite(v)) range = {std::min(range.low, v), std::max(range.high, v)};
  }
  if (range.low > range.high) throw std::invalid_argument("a figure of curves needs at least one finite point");
  return range;
}

Axes axes_of(const CurveFigure& figure) {
  const Range x = data_range(figure.curves, &Curve::x), y = data_range(figure.curves, &Curve::y);
  // A pressure axis begins at zero: a cut axis would make small differences look large.
  const double low = y.low >= 0 ? 0 : y.low;
  return axes_spanning(figure.x.range.value_or(rounded_range(x.low, x.high, 8)),
                       figure.y.range.value_or(rounded_range(low, std::max(y.high, low), 7)), figure.x_growing);
}

/// Runs of finite points on the page.
std::vector<std::vector<Vec2>> runs(const Curve& curve, const Axes& axes) {
  std::vector<std::vector<Vec2>> all(1);
  for (std::size_t k = 0; k < curve.x.size(); ++k) {
    if (std::isfinite(curve.x[k]) && std::isfinite(curve.y[k]))
      all.back().push_back(on_page(axes, curve.x[k], curve.y[k]));
    else
      all.emplace_back();
  }
  return all;
}

/// Points every few pixels along a curve: what a tag must keep away from, and where one may sit.
std::vector<Vec2> sampled(const Curve& curve, const Axes& axes) {
  std::vector<Vec2> points;
  for (const auto& run : runs(curve, axes))
    for (std::size_t k = 1; k < run.size(); ++k) {
      const int pieces = 1 + static_cast<int>((run[k] - run[k - 1]).norm() / 6);
      for (int i = 0; i < pieces; ++i)
        points.push_back(run[k - 1] + i / static_cast<double>(pieces) * (run[k] - run[k - 1]));
    }
  return points;
}

double nearest(const Vec2& p, const std::vector<Vec2>& points) {
  double best = 1e9;
  for (const Vec2& q : points) best = std::min(best, (p - q).norm());
  return best;
}

/// For each curve the place where a numbered tag is farthest from the other curves and from the tags set before.
std::vector<Vec2> tag_places(const std::vector<Curve>& curves, const Axes& axes) {
  std::vector<std::vector<Vec2>> points;
  for (const auto& curve : curves) points.push_back(sampled(curve, axes));
  const double floor = axes.corner.y() + axes.size.y();
  std::vector<Vec2> tags;
  for (std::size_t k = 0; k < curves.size(); ++k) {
    Vec2 best(-100, -100);
    double best_room = -1;
    const std::size_t stride = std::max<std::size_t>(1, points[k].size() / 80);
    for (std::size_t i = 0; i < points[k].size(); i += stride) {
      const Vec2& p = points[k][i];
      double room = std::min({nearest(p, tags) - 12, floor - p.y() + 4, 40.0});
      for (std::size_t other = 0; other < curves.size(); ++other)
        if (other != k) room = std::min(room, nearest(p, points[other]));
      if (room > best_room) {
        best_room = room;
        best = p;
      }
    }
    tags.push_back(best);
  }
  return tags;
}

std::string curves_drawn(const CurveFigure& figure, const Axes& axes) {
  std::string lines, tags;
  // The baseline is drawn last, so that it is never hidden.
  for (std::size_t k = figure.curves.size(); k-- > 0;) {
    std::string path;
    for (const auto& run : runs(figure.curves[k], axes)) path += svg::polyline(run, curve_pen(k));
    lines += svg::group(figure.curves[k].name, path);
  }
  const auto places = tag_places(figure.curves, axes);
  for (std::size_t k = 0; k < places.size() && places.size() > 1; ++k)
    if (places[k].x() >= 0) tags += curve_tag(places[k], k);
  return svg::clipped(axes.corner - Vec2(10, 10), axes.size + Vec2(20, 20), lines + tags);
}

std::string landmarks_drawn(const CurveFigure& figure, const Axes& axes) {
  std::string out;
  std::vector<Label> labels;
  for (const auto& landmark : figure.landmarks) {
    if (landmark.x < axes.x.low || landmark.x > axes.x.high) continue;
    const Vec2 foot = on_page(axes, landmark.x, axes.y.low), head(foot.x(), axes.corner.y());
    out += svg::line(foot, head, {.stroke = page::soft_ink, .width = 0.9, .dash = "3 3"});
    labels.push_back({head + Vec2(4, 8), landmark.name, {1, 0}, page::soft_ink});
  }
  std::vector<Box> taken;
  for (const auto& curve : figure.curves)
    for (const Vec2& p : sampled(curve, axes)) taken.push_back({p - Vec2(3, 3), p + Vec2(3, 3)});
  const Box bounds{axes.corner - Vec2(0, 12), axes.corner + axes.size};
  return out + drawn(place(labels, taken, bounds, 11.5), 11.5);
}

std::vector<std::string> names_of(const CurveFigure& figure) {
  std::vector<std::string> names;
  for (const auto& curve : figure.curves) names.push_back(curve.name);
  return names;
}

}  // namespace

std::string curve_figure(const CurveFigure& figure) {
  const Axes axes = axes_of(figure);
  const Piece names = curve_legend(names_of(figure));
  std::string description = figure.y.label + " against " + figure.x.label + " for";
  for (const auto& curve : figure.curves) description += " \"" + curve.name + "\"";
  return framed(figure.heading, description + ".",
                std::max(axes.corner.y() + axes.size.y() + axis_bottom, names.bottom),
                axes_drawn(axes, figure.x.label, figure.y.label) + landmarks_drawn(figure, axes) +
                    curves_drawn(figure, axes) + names.drawing);
}

}  // namespace hoofload::viz
