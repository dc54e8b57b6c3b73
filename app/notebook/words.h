// The closed vocabularies of the glossary: one enum each, and the words by which it is stored,
// shown and typed.
#pragma once

#include "base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

enum class Origin { original, period_replacement, reproduction, new_old_stock, unknown };
enum class Condition { as_found, stripped, cleaned, repaired, primed, finished, fitted, scrap };
enum class Decision { undecided, reuse, repair, replace, hold };
enum class Stage { as_found, before, during, after, fitted, proof };
enum class Sureness { certain, likely, unsure };
enum class TaskState { open, done, dropped };
enum class RunState { proposed, accepted, dismissed };
// Where a photo's time comes from; all but the first are guesses.
enum class TakenFrom { camera, file_name, neighbours };
// What photos of a part must show before its surface is taken off.
enum class Evidence { original_finish, marks, one_side, other_side };

// For each of the enums above: its word, the value of a word (any case; `-` and `_` count as a
// blank), and all its words in order. A word that is none of them is refused with the list.
template <class E>
std::string_view word(E value);
template <class E>
Result<E> from_word(std::string_view text);
template <class E>
const std::vector<std::string>& all_words();

} // namespace fettle
