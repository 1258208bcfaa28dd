#pragma once
// The words in which the files options_*.cc write down their entries: what kind of value,
// what range, what default, when it applies. Only for those; everyone else asks the table.

#include "inputs/case/option.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace throughbend::option_words
{
/// The place reached by a chain of members: at(&Case::coupon, &Coupon::length).
template <class... Members>
auto at(Members... members)
{
  return [=](Case &c) -> decltype(auto) { return (c.*....*members); };
}

inline Range between(double low, double high)
{
  return {low, high, Edge::closed, Edge::closed};
}

inline Range above(double low, double high)
{
  return {low, high, Edge::open, Edge::closed};
}

/// An option in the making.
class Entry
{
public:
  explicit Entry(Option option) : option_(std::move(option)) {}

  Entry otherwise(const std::string &text) &&
  {
    option_.default_text = text;
    return std::move(*this);
  }

  Entry otherwise_by(const std::string &words, const std::vector<std::string> &looks_at,
                     const std::function<std::optional<double>(const Case &)> &rule) &&
  {
    option_.rule      = rule;
    option_.rule_text = words;
    look_at(looks_at);
    return std::move(*this);
  }

  /// Left out, the option is what the model says that another option names. Of several
  /// models the first that has a value counts.
  Entry or_as_in(const std::string &model_key, const std::vector<std::string> &looks_at,
                 const std::function<ModelCase(const Case &)> &model) &&
  {
    option_.models.push_back({model_key, model});
    look_at(looks_at);
    return std::move(*this);
  }

  /// The option names a file in which this may be wrong.
  Entry file(const std::function<std::vector<FileFault>(const Case &)> &faults) &&
  {
    option_.file_faults                   = faults;
    std::get<TextSlot>(option_.slot).kind = TextKind::path;
    return std::move(*this).only_an_origin();
  }

  /// The option only says where other values come from.
  Entry only_an_origin() &&
  {
    option_.only_origin = true;
    return std::move(*this);
  }

  Entry only(const std::string &words, const std::vector<std::string> &looks_at,
             const std::function<bool(const Case &)> &applies) &&
  {
    option_.applies      = applies;
    option_.applies_text = words;
    look_at(looks_at);
    return std::move(*this);
  }

  Entry only_for_laws(const std::vector<HardeningLaw> &laws) &&
  {
    std::string words;
    for (const HardeningLaw law : laws)
      words += (words.empty() ? "" : ", ") + to_text(law);
    return std::move(*this).only(
        "law " + words, {"material.law"},
        [laws](const Case &c)
        { return std::find(laws.begin(), laws.end(), c.material.flow.law) != laws.end(); });
  }

  Entry only_with_frame() &&
  {
    return std::move(*this).only("with a frame", {"frame.distance"},
                                 [](const Case &c) { return c.fixture.frame.present(); });
  }

  Entry only_solid() &&
  {
    return std::move(*this).only(
        "solid shoulders", {"shoulders.kind"},
        [](const Case &c) { return c.fixture.shoulders.kind == ShoulderKind::solid; });
  }

  Option option() && { return std::move(option_); }

private:
  void look_at(const std::vector<std::string> &keys)
  {
    option_.looks_at.insert(option_.looks_at.end(), keys.begin(), keys.end());
  }

  Option option_;
};

template <class Slot>
Entry entry(const std::string &key, Slot slot, const std::string &help)
{
  const std::size_t dot = key.find('.');
  Option            option;
  option.section = key.substr(0, dot);
  option.name    = key.substr(dot + 1);
  option.help    = help;
  option.slot    = std::move(slot);
  return Entry(std::move(option));
}

template <class Place>
Entry number(const std::string &key, UnitKind kind, const Range &range, Place place,
             const std::string &help)
{
  return entry(key, NumberSlot{kind, range, place}, help);
}

template <class Place>
Entry length(const std::string &key, const Range &range, Place place,
             const std::string &help)
{
  return number(key, UnitKind::length, range, place, help);
}

template <class Place>
Entry stress(const std::string &key, const Range &range, Place place,
             const std::string &help)
{
  return number(key, UnitKind::stress, range, place, help);
}

template <class Place>
Entry ratio(const std::string &key, const Range &range, Place place,
            const std::string &help)
{
  return number(key, UnitKind::ratio, range, place, help);
}

template <class Place>
Entry count(const std::string &key, const Range &range, Place place,
            const std::string &help)
{
  return entry(key, CountSlot{range, place}, help);
}

/// Names in the order of the enum.
template <class Place>
Entry choice(const std::string &key, const std::vector<std::string> &names, Place place,
             const std::string &help)
{
  using Choice = std::decay_t<decltype(place(std::declval<Case &>()))>;
  ChoiceSlot slot;
  slot.names = names;
  slot.get   = [place](const Case &c)
  {
    Case copy = c;
    return static_cast<std::size_t>(place(copy));
  };
  slot.set = [place](Case &c, std::size_t i) { place(c) = static_cast<Choice>(i); };
  return entry(key, std::move(slot), help);
}
inline void add(std::vector<Option> &options, Entry entry)
{
  options.push_back(std::move(entry).option());
}
} // namespace throughbend::option_words
