#include "postprocess/study/pass_data.h"

#include "inputs/text/json.h"
#include "postprocess/html/html_text.h"
#include "postprocess/runs/pass_sentences.h"
#include "postprocess/study/finding_mark.h"
#include "postprocess/study/study_grid.h"
#include "postprocess/words/finding_words.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace throughbend
{
namespace
{
struct Span
{
  double low = INFINITY, high = -INFINITY;

  void hold(const double value)
  {
    if (!std::isfinite(value))
      return;
    low  = std::min(low, value);
    high = std::max(high, value);
  }
  bool   empty() const { return !(low <= high); }
  double size() const { return empty() || high == low ? 1 : high - low; }
};

void add_word(std::string &bytes, const double value, const Span &span)
{
  const double share = span.empty() ? 0 : (value - span.low) / span.size();
  const auto   word  = static_cast<unsigned>(
      std::lround(std::clamp(std::isfinite(share) ? share : 0., 0., 1.) * 0xffff));
  bytes += static_cast<char>(word & 0xff);
  bytes += static_cast<char>(word >> 8 & 0xff);
}

double rounded(const double value)
{
  return std::round(value * 1024) / 1024;
}

std::size_t n_points(const StudyOutline &outline)
{
  return std::min(outline.x.size(), outline.y.size());
}

/// Which of n things stay when at most `most` may, the first and the last among them.
std::vector<std::size_t> kept(const std::size_t n, const std::size_t most)
{
  std::vector<std::size_t> all;
  if (n <= most || most < 2)
  {
    for (std::size_t i = 0; i < n; ++i)
      if (n <= most || i == 0 || i + 1 == n)
        all.push_back(i);
    return all;
  }
  for (std::size_t k = 0; k < most; ++k)
    all.push_back((k * (n - 1) + (most - 1) / 2) / (most - 1));
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

/// Moved as a whole from one outline to another; none where the shape differs.
std::optional<std::pair<double, double>> shift(const StudyOutline &from,
                                               const StudyOutline &to)
{
  const std::size_t n = n_points(from);
  if (n == 0 || n != n_points(to))
    return std::nullopt;
  const double     dx = to.x[0] - from.x[0], dy = to.y[0] - from.y[0];
  constexpr double slack = 1e-3; // [mm], less than a pixel
  for (std::size_t i = 0; i < n; ++i)
    if (std::abs(to.x[i] - from.x[i] - dx) > slack ||
        std::abs(to.y[i] - from.y[i] - dy) > slack)
      return std::nullopt;
  return std::pair(dx, dy);
}

class Packer
{
public:
  Packer(const ReportedStudy &study, const std::vector<std::size_t> &passes,
         const ReaderUnits &units)
      : study_(study), passes_(passes), units_(units)
  {
    for (const std::size_t p : passes)
    {
      const StudyPass &pass = study.record.passes[p];
      for (const double travel : pass.travel)
        travel_.hold(travel);
      for (const double force : pass.force)
        force_.hold(force);
      for (const StudyMoment &moment : pass.moments)
      {
        hold(moment.coupon, coupon_x_, coupon_y_);
        hold(moment.coupon, x_, y_);
        for (const StudyOutline &tool : moment.tools)
          hold(tool, x_, y_);
        most_moments_ = std::max(most_moments_, pass.moments.size());
        most_points_  = std::max(most_points_, n_points(moment.coupon));
      }
    }
    travel_.hold(0);
    force_.hold(0);
  }

  std::size_t bytes(const std::size_t moments, const std::size_t every) const
  {
    std::size_t sum = 0;
    for (const std::size_t p : passes_)
    {
      const auto &all = study_.record.passes[p].moments;
      for (const std::size_t m : kept(all.size(), moments))
        sum += n_points(all[m].coupon) / every * 4 * 4 / 3 + 120;
    }
    return sum;
  }

  std::size_t most_moments() const { return most_moments_; }
  std::size_t most_points() const { return most_points_; }

  Json json(const std::size_t moments, const std::size_t every)
  {
    Json list = Json::array();
    for (const std::size_t p : passes_)
      list.push_back(pass_json(p, moments, every));
    Json            keys = Json::array();
    const StudyGrid grid(study_.record);
    for (std::size_t k = 0; k < study_.record.keys.size(); ++k)
    {
      const StudyKey &key    = study_.record.keys[k];
      Json            levels = Json::array();
      if (k < grid.n_keys())
        for (const double level : grid.levels(k))
          levels.push_back(level / key.scale);
      keys.push_back({{"name", key_name(key.key)}, {"unit", key.unit}, {"levels", levels}});
    }
    Json json        = Json::object();
    json["first"]    = units_.first() == UnitSystem::us ? "us" : "metric";
    json["span"]     = {rounded(x_.low), rounded(y_.low), rounded(x_.size()),
                        rounded(y_.size())};
    json["view"]     = {rounded(coupon_x_.low), rounded(coupon_x_.high)};
    json["travel"]   = {rounded(travel_.low), rounded(travel_.size())};
    json["force"]    = {rounded(force_.low), rounded(force_.size())};
    const bool one   = study_.own && !find_key(study_.record, "ram.capacity");
    json["capacity"] = one ? Json(study_.own->ram.capacity) : Json(nullptr);
    json["keys"]     = keys;
    json["outlines"] = outlines_;
    json["passes"]   = list;
    return json;
  }

private:
  static void hold(const StudyOutline &outline, Span &x, Span &y)
  {
    for (std::size_t i = 0; i < n_points(outline); ++i)
    {
      x.hold(outline.x[i]);
      y.hold(outline.y[i]);
    }
  }

  std::string packed(const StudyOutline &outline, const std::size_t every) const
  {
    std::string bytes;
    for (std::size_t i = 0; i < n_points(outline); i += every)
    {
      add_word(bytes, outline.x[i], x_);
      add_word(bytes, outline.y[i], y_);
    }
    return base64(bytes);
  }

  std::size_t outline(const StudyOutline &tool)
  {
    const std::string text  = packed(tool, 1);
    const auto        found = places_.emplace(text, outlines_.size());
    if (found.second)
      outlines_.push_back(text);
    return found.first->second;
  }

  Json tools_json(const StudyMoment                           &moment,
                  std::map<std::string, const StudyOutline *> &first)
  {
    Json list = Json::array();
    for (const StudyOutline &tool : moment.tools)
    {
      const auto known = first.emplace(tool.name, &tool).first;
      if (const auto moved = shift(*known->second, tool))
        list.push_back({tool.name, outline(*known->second), rounded(moved->first),
                        rounded(moved->second)});
      else
        list.push_back({tool.name, outline(tool), 0, 0});
    }
    return list;
  }

  Json pass_json(const std::size_t number, const std::size_t moments,
                 const std::size_t every)
  {
    const StudyPass  &pass = study_.record.passes[number];
    const FindingMark mark = mark_of(pass);
    Json              json = Json::object();
    json["number"]         = number;
    json["letter"]         = mark.letters;
    json["ground"]         = mark.ground;
    json["ink"]            = mark.ink;
    json["finding"]        = finding_words(pass);
    json["verdict"]        = pass_verdict(pass, shown_in(units_));
    json["evidence"]       = pass_evidence(pass, shown_in(units_));
    json["values"]         = values_text(study_.record, pass);
    Json at                = Json::array();
    for (std::size_t k = 0; k < std::min(pass.values.size(), study_.record.keys.size());
         ++k)
      at.push_back(pass.values[k] / study_.record.keys[k].scale);
    json["at"]   = at;
    Json figures = Json::array();
    for (const char *const name :
         {"peak_ram_force_N", "capacity_margin", "peak_face_elongation",
          "finding.beyond_capacity.force_it_takes_N", "release.right_springback_deg"})
      if (const double value = figure_of(pass, name); std::isfinite(value))
        figures.push_back({label_of(name), figure_text(name, value, units_)});
    json["figures"] = figures;
    std::string curve;
    for (std::size_t i = 0; i < std::min(pass.travel.size(), pass.force.size()); ++i)
    {
      add_word(curve, pass.travel[i], travel_);
      add_word(curve, pass.force[i], force_);
    }
    json["curve"]                                    = base64(curve);
    Json                                        list = Json::array();
    std::map<std::string, const StudyOutline *> first;
    const std::vector<std::size_t>              stay = kept(pass.moments.size(), moments);
    for (const std::size_t m : stay)
    {
      const StudyMoment &moment = pass.moments[m];
      Span               x, y;
      hold(moment.coupon, x, y);
      Json item      = Json::object();
      item["travel"] = rounded(moment.travel);
      item["low"]    = y.empty() ? 0. : rounded(y.low);
      item["high"]   = y.empty() ? 0. : rounded(y.high);
      item["coupon"] = packed(moment.coupon, every);
      item["tools"]  = tools_json(moment, first);
      list.push_back(item);
    }
    json["moments"] = list;
    return json;
  }

  static std::string label_of(const std::string &name)
  {
    if (name == "finding.beyond_capacity.force_it_takes_N")
      return "force it would take";
    return name == "release.right_springback_deg" ? "springback, right leg"
                                                  : figure_name(name);
  }

  const ReportedStudy               &study_;
  const std::vector<std::size_t>    &passes_;
  const ReaderUnits                 &units_;
  Span                               travel_, force_, x_, y_, coupon_x_, coupon_y_;
  std::size_t                        most_moments_ = 0, most_points_ = 0;
  std::vector<std::string>           outlines_;
  std::map<std::string, std::size_t> places_;
};
} // namespace

PassData pass_data(const ReportedStudy &study, const std::vector<std::size_t> &passes,
                   const ReaderUnits &units, const std::size_t most_bytes)
{
  Packer            packer(study, passes, units);
  const std::size_t all     = std::max<std::size_t>(packer.most_moments(), 2);
  std::size_t       moments = all, every = 1;
  while (packer.bytes(moments, every) > most_bytes && moments > 5)
    --moments;
  while (packer.bytes(moments, every) > most_bytes && every < 8)
    ++every;
  while (packer.bytes(moments, every) > most_bytes && moments > 2)
    --moments;
  PassData data;
  data.json =
      packer.json(moments, every).dump(-1, ' ', false, Json::error_handler_t::replace);
  data.moments = std::min(moments, packer.most_moments());
  data.points  = (packer.most_points() + every - 1) / every;
  data.thinned = moments < packer.most_moments() || every > 1;
  return data;
}
} // namespace throughbend
