#include "desk/alternates.h"

#include "base/text.h"
#include "desk/measuring.h"
#include "notebook/marks_compared.h"

#include <algorithm>

namespace fettle::desk {
namespace {

// What speaks for and against one part, by what is known of it.
class Weighing {
  public:
    Weighing(const Position& position, Alternate& one, Day today)
        : position_(position), one_(one), today_(today) {}

    void weigh(const std::vector<Measurement>& measured, const std::vector<std::string>& foreign) {
        origin();
        condition();
        for (const auto& each : measured)
            verdict(each);
        whereabouts();
        for (const auto& sentence : foreign)
            say(false, sentence);
        if (one_.part.vehicle && one_.part.vehicle != position_.vehicle)
            say(false, "held for another vehicle");
        if (one_.at_hand > 0 && one_.at_hand < position_.quantity)
            say(false, "only " + std::to_string(one_.at_hand) + " of " +
                           std::to_string(position_.quantity) + " needed");
    }

  private:
    void say(bool speaks_for, const std::string& words) {
        one_.reasons.push_back({speaks_for, words});
    }

    void origin() {
        switch (one_.part.origin) {
        case Origin::original:
            return say(true, "the original");
        case Origin::new_old_stock:
            return say(true, "new old stock");
        case Origin::period_replacement:
            return say(true, "a replacement of its time");
        case Origin::reproduction:
            return say(false, "a reproduction");
        case Origin::unknown:
            return say(false, "where it is from is not known");
        }
    }

    void condition() {
        const auto& part = one_.part;
        if (part.condition == Condition::scrap)
            say(false, "scrap");
        else if (part.condition >= Condition::repaired)
            say(true, "is " + std::string(word(part.condition)));
        if (part.split_on) say(false, "lies in its pieces");
        if (part.decision == Decision::undecided) return;
        say(part.decision == Decision::reuse,
            "your decision on it is " + std::string(word(part.decision)));
    }

    void verdict(const Measurement& measurement) {
        const auto decision = decision_for(measurement.verdict);
        say(decision == Decision::reuse,
            "measured: " + measurement.feature + ", " + measurement.verdict);
    }

    void whereabouts() {
        if (one_.away.empty()) {
            if (one_.at_hand > 0) say(true, "at hand");
            return;
        }
        for (const auto& away : one_.away)
            say(false, away_words(away, today_));
    }

    const Position& position_;
    Alternate& one_;
    Day today_;
};

// The newest of each feature; measurements come by feature, the newest first.
std::vector<Measurement> newest_of(std::vector<Measurement> all) {
    std::vector<Measurement> newest;
    for (auto& one : all)
        if (newest.empty() || newest.back().feature != one.feature)
            newest.push_back(std::move(one));
    return newest;
}

// Costs are told apart only where all that have one have it in the same currency.
void tell_cheapest(std::vector<Alternate>& all) {
    std::vector<Alternate*> priced;
    for (auto& one : all)
        if (one.part.cost) priced.push_back(&one);
    if (priced.size() < 2) return;
    const auto& currency = priced.front()->part.cost->currency;
    if (!std::ranges::all_of(priced,
                             [&](const auto* one) { return one->part.cost->currency == currency; }))
        return;
    const auto minor = [](const Alternate* one) { return one->part.cost->minor; };
    const auto least = std::ranges::min(priced, {}, minor);
    if (minor(least) == minor(std::ranges::max(priced, {}, minor))) return;
    least->reasons.push_back({true, "costs least of them"});
}

} // namespace

Result<std::vector<Alternate>> alternates_for(const Notebook& notebook, const Position& position,
                                              Day today) {
    auto parts = list_parts(notebook, {.position = position.id});
    if (!parts) return parts.failure();
    auto disagreeing = disagreeing_parts(notebook);
    if (!disagreeing) return disagreeing.failure();
    std::vector<Alternate> all;
    for (auto& part : *parts) {
        Alternate one{.chosen = position.chosen == part.id};
        auto away = whereabouts(notebook, part.id);
        if (!away) return away.failure();
        auto measured = list_measurements(notebook, part.id);
        if (!measured) return measured.failure();
        one.away = std::move(*away);
        one.at_hand = part.left();
        for (const auto& gone : one.away)
            if (gone.inward || gone.since) one.at_hand -= gone.pieces;
        one.at_hand = std::max(0, one.at_hand);
        one.part = std::move(part);
        const auto newest = newest_of(std::move(*measured));
        for (const auto& each : newest)
            one.measured.push_back(each.feature + ": " + each.verdict + ", " + to_words(each.day));
        std::vector<std::string> foreign;
        for (const auto& found : *disagreeing)
            if (found.part.id == one.part.id)
                foreign.push_back("bears the mark of " + found.mark.maker +
                                  ", not told for this vehicle");
        Weighing(position, one, today).weigh(newest, foreign);
        all.push_back(std::move(one));
    }
    tell_cheapest(all);
    return all;
}

} // namespace fettle::desk
