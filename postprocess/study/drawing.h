#pragma once
// A drawing as a list of shapes, written as SVG for a page or as PNG for a paper, so that
// both show the same. Plain geometry in the drawing's own units, y down; knows no study.

#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
using Points = std::vector<std::pair<double, double>>;

/// Colours are "#rrggbb"; an empty one is not drawn.
struct Look
{
  std::string fill;
  std::string stroke;
  double      width = 1; ///< of the stroke
  /// Lengths of dash and gap in turn; empty: unbroken.
  std::vector<double> dashes = {};
};

enum class Turn
{
  level,
  upwards ///< read from below to above
};

struct Lettering
{
  double      size   = 16;
  const char *anchor = "start"; ///< "start", "middle", "end"
  std::string colour = "#1a2028";
  bool        bold   = false;
  Turn        turn   = Turn::level;
  bool        rimmed = false; ///< with a white rim, to be read on lines
};

class Drawing
{
public:
  Drawing(double width, double height, std::string title);

  /// `data` becomes attributes of the element in SVG, as `data-pass="3"`; it must be safe.
  void rectangle(double x, double y, double width, double height, const Look &look,
                 const std::string &data = "");
  void line(double x1, double y1, double x2, double y2, const Look &look);
  void path(const Points &points, const Look &look); ///< open
  void area(const Points &points, const Look &look); ///< closed
  void circle(double x, double y, double radius, const Look &look);
  void text(double x, double y, const std::string &words, const Lettering &lettering);

  double width() const { return width_; }
  double height() const { return height_; }

  /// Adds room below.
  void grow(double height) { height_ += height; }

  /// An <svg> element that stands by itself, too.
  std::string svg() const;

  /// A PNG file with `scale` pixels per unit.
  std::string png(double scale) const;

private:
  enum class Kind
  {
    rectangle,
    path,
    area,
    circle,
    text
  };
  struct Item
  {
    Kind        kind = Kind::path;
    Points      points; ///< of a circle its centre; of a rectangle two corners
    double      radius = 0;
    Look        look;
    std::string words;
    Lettering   lettering;
    std::string data;
  };

  Item &add(Kind kind, Points points, const Look &look);

  double            width_, height_;
  std::string       title_;
  std::vector<Item> items_;
};
} // namespace throughbend
