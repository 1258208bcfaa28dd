#pragma once
// Writes values into bytes and reads them back, for checkpoints: numbers in the machine's
// own form, so that every double comes back to the last digit. Reading trusts nothing: a
// length is compared with the bytes that are left before memory is taken for it. Which
// fields make a state is said in solver/pass/state_fields.h.

#include "inputs/text/input_error.h"

#include <array>
#include <cstdint>
#include <cstring>
#include <deque>
#include <istream>
#include <map>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace throughbend
{
/// Appends to a string.
class StateWriter
{
public:
  template <class... Values>
  void operator()(const Values &...values)
  {
    (put(values), ...);
  }

  /// An enumerator, of those up to `last`.
  template <class Choice>
  void choice(const Choice &value, Choice)
  {
    put(static_cast<std::int32_t>(value));
  }
  const std::string &bytes() const { return bytes_; }

private:
  void raw(const void *from, std::size_t n)
  {
    bytes_.append(static_cast<const char *>(from), n);
  }
  void put(const double &value) { raw(&value, sizeof value); }
  void put(const bool &value) { bytes_ += value ? '\1' : '\0'; }
  void put(const std::int32_t &value) { raw(&value, sizeof value); }
  void put(const std::uint64_t &value) { raw(&value, sizeof value); }
  void put(const std::string &text)
  {
    put(std::uint64_t{text.size()});
    raw(text.data(), text.size());
  }
  template <class First, class Second>
  void put(const std::pair<First, Second> &pair)
  {
    put(pair.first);
    put(pair.second);
  }
  template <class Value, std::size_t n>
  void put(const std::array<Value, n> &values)
  {
    for (const Value &value : values)
      put(value);
  }
  template <class Value>
  void put(const std::optional<Value> &value)
  {
    put(value.has_value());
    if (value)
      put(*value);
  }
  template <class List>
  void put_list(const List &list)
  {
    put(std::uint64_t{list.size()});
    for (const auto &value : list)
      put(value);
  }
  template <class Value>
  void put(const std::vector<Value> &values)
  {
    if constexpr (std::is_same_v<Value, double>)
    {
      put(std::uint64_t{values.size()});
      raw(values.data(), values.size() * sizeof(double));
    }
    else
      put_list(values);
  }
  template <class Value>
  void put(const std::deque<Value> &values)
  {
    put_list(values);
  }
  void put(const std::map<std::string, double> &values) { put_list(values); }

  /// Everything else has its fields listed in a function transfer(archive, value).
  template <class Value>
  auto put(const Value &value)
      -> decltype(transfer(std::declval<StateWriter &>(), std::declval<Value &>()))
  {
    // One list of fields for both directions; nothing is changed here.
    transfer(*this, const_cast<Value &>(value));
  }

  std::string bytes_;
};

/// Reads what StateWriter has written. Throws InputError, without a place, where the bytes
/// cannot be that.
class StateReader
{
public:
  /// `n` bytes of the stream, which must outlive this.
  StateReader(std::istream &in, std::uint64_t n) : in_(in), left_(n) {}

  template <class... Values>
  void operator()(Values &...values)
  {
    (take(values), ...);
  }
  template <class Choice>
  void choice(Choice &value, Choice last)
  {
    std::int32_t number = 0;
    take(number);
    if (number < 0 || number > static_cast<std::int32_t>(last))
      throw InputError("it holds a choice that does not exist (number " +
                       std::to_string(number) + ")");
    value = static_cast<Choice>(number);
  }
  std::uint64_t left() const { return left_; } ///< bytes not read yet

private:
  void raw(void *into, std::uint64_t n)
  {
    if (n > left_)
      throw InputError("it ends too early");
    in_.read(static_cast<char *>(into), static_cast<std::streamsize>(n));
    if (!in_)
      throw InputError("it cannot be read to its end");
    left_ -= n;
  }
  /// Of a list whose items take at least so many bytes.
  std::size_t length(std::uint64_t least)
  {
    std::uint64_t n = 0;
    take(n);
    if (n > left_ / least)
      throw InputError("it holds a list longer than the file (" + std::to_string(n) +
                       " items)");
    return static_cast<std::size_t>(n);
  }
  void take(double &value) { raw(&value, sizeof value); }
  void take(std::int32_t &value) { raw(&value, sizeof value); }
  void take(std::uint64_t &value) { raw(&value, sizeof value); }
  void take(bool &value)
  {
    unsigned char byte = 0;
    raw(&byte, 1);
    if (byte > 1)
      throw InputError("it holds a yes or no that is neither");
    value = byte == 1;
  }
  void take(std::string &text)
  {
    text.resize(length(1));
    raw(text.data(), text.size());
  }
  template <class First, class Second>
  void take(std::pair<First, Second> &pair)
  {
    take(pair.first);
    take(pair.second);
  }
  template <class Value, std::size_t n>
  void take(std::array<Value, n> &values)
  {
    for (Value &value : values)
      take(value);
  }
  template <class Value>
  void take(std::optional<Value> &value)
  {
    bool there = false;
    take(there);
    value.reset();
    if (there)
      take(value.emplace());
  }
  template <class Value>
  void take(std::vector<Value> &values)
  {
    values.clear();
    if constexpr (std::is_same_v<Value, double>)
    {
      values.resize(length(sizeof(double)));
      raw(values.data(), values.size() * sizeof(double));
    }
    else
      for (std::size_t n = length(1); n > 0; --n)
        take(values.emplace_back());
  }
  template <class Value>
  void take(std::deque<Value> &values)
  {
    values.clear();
    for (std::size_t n = length(1); n > 0; --n)
      take(values.emplace_back());
  }
  void take(std::map<std::string, double> &values)
  {
    values.clear();
    for (std::size_t n = length(1); n > 0; --n)
    {
      std::pair<std::string, double> value;
      take(value);
      values.insert(value);
    }
  }
  template <class Value>
  auto take(Value &value)
      -> decltype(transfer(std::declval<StateReader &>(), std::declval<Value &>()))
  {
    transfer(*this, value);
  }

  std::istream &in_;
  std::uint64_t left_;
};
} // namespace throughbend
