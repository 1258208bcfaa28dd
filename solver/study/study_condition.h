#pragma once
// What a limit is sought for: the condition that passes on one side of it meet and those on
// the other do not. A pass without a finding is on neither side.

#include "solver/study/file/study_record.h"

#include <string>

namespace throughbend
{
enum class Meets
{
  yes,
  no,
  not_known ///< no finding, figures on which none may rest, or a limit that nobody stated
};

class StudyCondition
{
public:
  /// `through` or another finding; `sound`: through, without an event and with sound
  /// figures; `metal-within`; `force-below 90 %` (of ram.capacity) or
  /// `force-below 70 kN`; `stretch-below 25 %`. All but a finding ask for `through` as
  /// well: what does not go through clears nothing. Throws InputError.
  explicit StudyCondition(const std::string &text);

  Meets              judge(const StudyPass &pass) const;
  const std::string &text() const { return text_; } ///< as it was told
  std::string        words() const;                 ///< as a sentence goes on

private:
  enum class Kind
  {
    outcome,
    sound,
    metal,
    force_share,
    force,
    stretch
  };
  std::string text_;
  Kind        kind_ = Kind::outcome;
  std::string outcome_;
  double      most_ = 0; ///< [-] or [N]
};

/// Through without an event, with figures that are accurate.
bool is_sound(const StudyPass &pass);

/// The words a condition may be, for help and messages.
std::string condition_words();
} // namespace throughbend
