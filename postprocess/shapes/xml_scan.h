#pragma once
// The few parts of XML that files of shapes are made of, one after the other, without a
// tree and without recursion: tags with attributes, text, comments. No entities, no
// DOCTYPE: our files have none. Whatever the text, the answer is a part or an InputError.

#include "inputs/text/input_error.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace throughbend
{
/// The text ends within an element, as that of a program that was stopped in writing.
struct XmlCutOff : InputError
{
  using InputError::InputError;
};

class XmlScan
{
public:
  enum class Part
  {
    open,  ///< of an element; one that is closed at once is followed by its close
    text,  ///< between tags
    close, ///< of an element
    end    ///< of the file; all elements are closed
  };

  /// The text must outlive the scan. `file` stands in messages.
  XmlScan(std::string_view text, std::string file);

  /// Throws XmlCutOff, and InputError for all else that is no XML of this kind.
  Part next();

  std::string_view name() const { return name_; } ///< of the element opened or closed
  std::string_view text() const { return words_; }
  std::optional<std::string_view> attribute(std::string_view name) const;

  /// A whole number from 0 to `most`. Throws InputError when it is none, or not there.
  std::size_t count(std::string_view attribute, std::size_t most) const;

  [[noreturn]] void refuse(const std::string &problem) const; ///< with file and line

private:
  [[noreturn]] void cut_off() const;
  void              skip_to_end_of(std::string_view mark);
  Part              tag();
  void              attributes(std::string_view inside);

  std::string_view                                           text_;
  std::string                                                file_;
  std::size_t                                                at_ = 0;
  std::string_view                                           name_, words_;
  std::vector<std::pair<std::string_view, std::string_view>> attributes_;
  std::vector<std::string_view>                              open_; ///< elements
  bool closes_at_once_ = false, any_ = false;
};
} // namespace throughbend
