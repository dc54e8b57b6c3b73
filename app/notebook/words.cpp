#include "notebook/words.h"

#include <algorithm>
#include <cctype>

namespace fettle {
namespace {

template <class E>
struct Vocabulary;

template <>
struct Vocabulary<Origin> {
    static constexpr std::string_view field = "origin";
    inline static const std::vector<std::string> words = {
        "original", "period replacement", "reproduction", "new old stock", "unknown"};
};

template <>
struct Vocabulary<Condition> {
    static constexpr std::string_view field = "condition";
    inline static const std::vector<std::string> words = {
        "as found", "stripped", "cleaned", "repaired", "primed", "finished", "fitted", "scrap"};
};

template <>
struct Vocabulary<Decision> {
    static constexpr std::string_view field = "decision";
    inline static const std::vector<std::string> words = {"undecided", "reuse", "repair", "replace",
                                                          "hold"};
};

template <>
struct Vocabulary<Stage> {
    static constexpr std::string_view field = "stage";
    inline static const std::vector<std::string> words = {"as found", "before", "during",
                                                          "after",    "fitted", "proof"};
};

template <>
struct Vocabulary<Sureness> {
    static constexpr std::string_view field = "sureness";
    inline static const std::vector<std::string> words = {"certain", "likely", "unsure"};
};

template <>
struct Vocabulary<TaskState> {
    static constexpr std::string_view field = "task state";
    inline static const std::vector<std::string> words = {"open", "done", "dropped"};
};

template <>
struct Vocabulary<RunState> {
    static constexpr std::string_view field = "state of a run";
    inline static const std::vector<std::string> words = {"proposed", "accepted", "dismissed"};
};

template <>
struct Vocabulary<TakenFrom> {
    static constexpr std::string_view field = "source of a time";
    inline static const std::vector<std::string> words = {"camera", "file name", "neighbours"};
};

template <>
struct Vocabulary<Evidence> {
    static constexpr std::string_view field = "kind of evidence";
    inline static const std::vector<std::string> words = {"original finish", "marks", "one side",
                                                          "other side"};
};

std::string plain(std::string_view text) {
    std::string folded;
    for (char letter : text) {
        auto byte = static_cast<unsigned char>(letter);
        folded += letter == '-' || letter == '_' ? ' ' : static_cast<char>(std::tolower(byte));
    }
    return folded;
}

std::string listed(const std::vector<std::string>& words) {
    std::string list;
    for (const auto& word : words)
        list += (list.empty() ? "" : ", ") + word;
    return list;
}

} // namespace

template <class E>
std::string_view word(E value) {
    return Vocabulary<E>::words.at(static_cast<std::size_t>(value));
}

template <class E>
Result<E> from_word(std::string_view text) {
    const auto& words = Vocabulary<E>::words;
    auto found = std::ranges::find(words, plain(text));
    if (found == words.end())
        return Failure{FailureKind::invalid, "\"" + std::string(text) + "\" is no " +
                                                 std::string(Vocabulary<E>::field) +
                                                 ": accepted are " + listed(words) + "."};
    return static_cast<E>(found - words.begin());
}

template <class E>
const std::vector<std::string>& all_words() {
    return Vocabulary<E>::words;
}

#define FETTLE_VOCABULARY(E)                                                                       \
    template std::string_view word<E>(E);                                                          \
    template Result<E> from_word<E>(std::string_view);                                             \
    template const std::vector<std::string>& all_words<E>();
FETTLE_VOCABULARY(Origin)
FETTLE_VOCABULARY(Condition)
FETTLE_VOCABULARY(Decision)
FETTLE_VOCABULARY(Stage)
FETTLE_VOCABULARY(Sureness)
FETTLE_VOCABULARY(TaskState)
FETTLE_VOCABULARY(RunState)
FETTLE_VOCABULARY(TakenFrom)
FETTLE_VOCABULARY(Evidence)
#undef FETTLE_VOCABULARY

} // namespace fettle
