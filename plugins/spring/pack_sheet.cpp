#include "spring/pack_sheet.h"

#include "spring/pack_lines.h"
#include "spring/words.h"

#include <algorithm>
#include <cmath>

namespace fettle::spring {

using plugin::line;

std::vector<std::size_t> idle_leaves(const PackState& state) {
    double most = 0;
    for (const LeafState& leaf : state.leaves)
        most = std::max(most, leaf.press);
    std::vector<std::size_t> idle;
    for (std::size_t i = 1; i < state.leaves.size(); ++i)
        if (!(state.leaves[i].press > 1e-6 * most)) idle.push_back(i);
    return idle;
}

std::string where_it_touches(const PackAnswer& answer, std::size_t leaf) {
    if (leaf == 0) return "the master";
    const LeafState& state = answer.work.loaded.leaves[leaf];
    std::string places;
    for (const Touch& touch : answer.work.loaded.touches) {
        if (touch.upper + 1 != leaf || touch.force < 0.02 * state.press || touch.force <= 0) {
            continue;
        }
        places += line(places.empty() ? "at " : ", ",
                       plugin::figure((touch.at + answer.pack.clamp / 2) * 1e3, 3));
    }
    if (!places.empty()) return line(places, " mm from the middle");
    double widest = 0;
    for (const Place& gap : state.gap)
        widest = std::max(widest, gap.value);
    return line("clear, up to ", mm(widest, 2));
}

plugin::Outcome<PackAnswer> work_pack(const PackTyped& typed) {
    auto pack = pack_from(typed);
    if (auto* refusal = std::get_if<plugin::Refusal>(&pack)) return *refusal;
    PackAnswer answer{};
    answer.pack = std::get<Pack>(pack);
    auto work = work_out(answer.pack, typed.load, typed.master_apart ? 1 : 0);
    if (!work) {
        return plugin::Refusal{"leaves", "leaves: no state of contact was found for this pack; "
                                         "look for a leaf typed in the wrong unit."};
    }
    answer.work = std::move(*work);
    const auto free_arch = typed.free_arch ? typed.free_arch : answer.work.built_arch;
    if (free_arch) answer.loaded_arch = *free_arch - answer.work.deflection;
    answer.why = reasons(answer);

    tell_measures(typed, answer);
    tell_contact(typed, answer);
    tell_textbook(typed, answer);
    tell_friction(typed, answer);
    tell_nip_and_clips(typed, answer);
    tell_stress(typed, answer);
    note_stress(typed, answer);
    note_readings(typed, answer);
    note_limits_of_theory(typed, answer);
    return answer;
}

} // namespace fettle::spring
