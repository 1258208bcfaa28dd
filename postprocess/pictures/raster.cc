#include "postprocess/pictures/raster.h"

#include <vtkImageData.h>
#include <vtkNew.h>
#include <vtkPNGWriter.h>
#include <vtkTextProperty.h>
#include <vtkTextRenderer.h>
#include <vtkUnsignedCharArray.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr int  finer = 3; // fine pixels per pixel, each way: smooth edges
constexpr auto depth = std::size_t{3};

int first_in(const double low)
{
  return static_cast<int>(std::ceil(low - 0.5));
}

void blend(unsigned char &under, const unsigned char over, const int alpha)
{
  under = static_cast<unsigned char>((under * (255 - alpha) + over * alpha) / 255);
}
} // namespace

Raster::Raster(const int width, const int height, const Colour ground)
    : width_(width), height_(height),
      fine_(depth * static_cast<std::size_t>(width * finer) *
            static_cast<std::size_t>(height * finer))
{
  for (std::size_t i = 0; i < fine_.size(); i += depth)
  {
    fine_[i]     = ground.red;
    fine_[i + 1] = ground.green;
    fine_[i + 2] = ground.blue;
  }
}

void Raster::set(const int x, const int y, const Colour colour)
{
  unsigned char *const at = &fine_[depth * (static_cast<std::size_t>(y) *
                                                static_cast<std::size_t>(width_ * finer) +
                                            static_cast<std::size_t>(x))];
  at[0]                   = colour.red;
  at[1]                   = colour.green;
  at[2]                   = colour.blue;
}

Colour Raster::pixel(const int x, const int y) const
{
  std::array<int, 3> sum{};
  for (int j = 0; j < finer; ++j)
    for (int i = 0; i < finer; ++i)
    {
      const auto at = depth * (static_cast<std::size_t>(y * finer + j) *
                                   static_cast<std::size_t>(width_ * finer) +
                               static_cast<std::size_t>(x * finer + i));
      for (std::size_t c = 0; c < 3; ++c)
        sum[c] += fine_[at + c];
    }
  const auto mean = [&](const std::size_t c)
  { return static_cast<unsigned char>(sum[c] / (finer * finer)); };
  return {mean(0), mean(1), mean(2)};
}

void Raster::fill(const std::vector<PlaneVector> &polygon, const Colour colour)
{
  if (polygon.size() < 3)
    return;
  double low = polygon[0].y, high = low;
  for (const PlaneVector &p : polygon)
  {
    low  = std::min(low, p.y);
    high = std::max(high, p.y);
  }
  const int           first = std::max(0, first_in(low * finer));
  const int           last  = std::min(height_ * finer, first_in(high * finer));
  std::vector<double> cuts;
  for (int y = first; y < last; ++y)
  {
    const double level = (y + 0.5) / finer;
    cuts.clear();
    for (std::size_t i = 0; i < polygon.size(); ++i)
    {
      const PlaneVector a = polygon[i], b = polygon[(i + 1) % polygon.size()];
      if ((a.y <= level) != (b.y <= level))
        cuts.push_back(a.x + (level - a.y) / (b.y - a.y) * (b.x - a.x));
    }
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t k = 0; k + 1 < cuts.size(); k += 2)
      for (int x    = std::max(0, first_in(cuts[k] * finer)),
               stop = std::min(width_ * finer, first_in(cuts[k + 1] * finer));
           x < stop; ++x)
        set(x, y, colour);
  }
}

void Raster::fill(const std::array<PlaneVector, 3>    &corners,
                  const std::array<double, 3>         &values,
                  const std::function<Colour(double)> &colour)
{
  const PlaneVector a = corners[0], u = corners[1] - a, v = corners[2] - a;
  const double      area = u.x * v.y - u.y * v.x;
  if (std::abs(area) < 1e-12)
    return;
  const auto span = [](double p, double q, double r, int limit)
  {
    return std::array<int, 2>{
        std::max(0, first_in(std::min({p, q, r}) * finer) - 1),
        std::min(limit * finer, first_in(std::max({p, q, r}) * finer) + 1)};
  };
  const auto [x0, x1]    = span(corners[0].x, corners[1].x, corners[2].x, width_);
  const auto [y0, y1]    = span(corners[0].y, corners[1].y, corners[2].y, height_);
  constexpr double slack = 1e-3; // so that neighbours leave no gap between them
  for (int y = y0; y < y1; ++y)
    for (int x = x0; x < x1; ++x)
    {
      const PlaneVector p{(x + 0.5) / finer - a.x, (y + 0.5) / finer - a.y};
      const double      s = (p.x * v.y - p.y * v.x) / area;
      const double      t = (u.x * p.y - u.y * p.x) / area;
      if (s >= -slack && t >= -slack && s + t <= 1 + slack)
        set(x, y,
            colour(values[0] + s * (values[1] - values[0]) + t * (values[2] - values[0])));
    }
}

void Raster::line(const PlaneVector from, const PlaneVector to, const double width,
                  const Colour colour)
{
  const PlaneVector along = to - from;
  const double      size  = length(along);
  if (size <= 0)
    return;
  const PlaneVector on   = (width / 2 / size) * along; // ends stand out by half the width
  const PlaneVector side = {-on.y, on.x};
  fill({from - on + side, to + on + side, to + on - side, from - on - side}, colour);
}

void Raster::text(const std::string &words, const PlaneVector at, const int size,
                  const Anchor anchor, const Colour colour, const TextStyle &style)
{
  labels_.push_back({words, at, size, anchor, colour, style});
}

std::string Raster::png() const
{
  vtkNew<vtkImageData> image;
  image->SetDimensions(width_, height_, 1);
  image->AllocateScalars(VTK_UNSIGNED_CHAR, 3);
  const auto at = [&](const int x, const int y) // VTK's rows go up
  { return static_cast<unsigned char *>(image->GetScalarPointer(x, height_ - 1 - y, 0)); };
  for (int y = 0; y < height_; ++y)
    for (int x = 0; x < width_; ++x)
    {
      const Colour         mean = pixel(x, y);
      unsigned char *const to   = at(x, y);
      to[0]                     = mean.red;
      to[1]                     = mean.green;
      to[2]                     = mean.blue;
    }

  constexpr int dots_per_inch = 72; // so that a text's size is in pixels
  for (const Label &label : labels_)
  {
    vtkNew<vtkTextProperty> style;
    style->SetFontFamilyToArial();
    style->SetFontSize(label.size);
    style->SetBold(label.style.weight == Weight::bold);
    style->SetColor(label.colour.red / 255., label.colour.green / 255.,
                    label.colour.blue / 255.);
    vtkNew<vtkImageData> drawn;
    int                  size[2] = {0, 0};
    vtkTextRenderer     *writer  = vtkTextRenderer::GetInstance();
    if (!writer || !writer->RenderString(style, label.words, drawn, size, dots_per_inch,
                                         vtkTextRenderer::FreeType))
      continue;
    const int back = label.anchor == Anchor::left     ? 0
                     : label.anchor == Anchor::middle ? size[0] / 2
                                                      : size[0];
    int       extent[6];
    drawn->GetExtent(extent);
    const auto put = [&](const int i, const int j, const auto &mix)
    {
      const bool up = label.style.reading == TextDirection::upwards;
      const int  x  = static_cast<int>(label.at.x) + (up ? -j : i - back);
      const int  y  = static_cast<int>(label.at.y) - (up ? i - back : j);
      if (x < 0 || x >= width_ || y < 0 || y >= height_)
        return;
      mix(at(x, y));
    };
    const auto letter = [&](const int i, const int j)
    {
      return static_cast<unsigned char *>(
          drawn->GetScalarPointer(extent[0] + i, extent[2] + j, 0));
    };
    if (label.style.rim == Rim::white)
    {
      const int wide = std::max(1, label.size / 8);
      for (int j = 0; j < size[1]; ++j)
        for (int i = 0; i < size[0]; ++i)
          if (letter(i, j)[3] > 0)
            for (int v = -wide; v <= wide; ++v)
              for (int u = -wide; u <= wide; ++u)
                if (u * u + v * v <= wide * wide)
                  put(i + u, j + v,
                      [&](unsigned char *under)
                      {
                        for (int c = 0; c < 3; ++c)
                          blend(under[c], 255, letter(i, j)[3]);
                      });
    }
    for (int j = 0; j < size[1]; ++j)
      for (int i = 0; i < size[0]; ++i)
        put(i, j,
            [&](unsigned char *under)
            {
              for (int c = 0; c < 3; ++c)
                blend(under[c], letter(i, j)[c], letter(i, j)[3]);
            });
  }

  vtkNew<vtkPNGWriter> writer;
  writer->SetInputData(image);
  writer->WriteToMemoryOn();
  writer->Write();
  vtkUnsignedCharArray *const bytes = writer->GetResult();
  return {reinterpret_cast<const char *>(bytes->GetPointer(0)),
          static_cast<std::size_t>(bytes->GetNumberOfValues())};
}
} // namespace throughbend
