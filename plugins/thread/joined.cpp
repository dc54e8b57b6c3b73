#include "thread/joined.h"

#include "screw_threads/designation.h"
#include "screw_threads/words.h"

namespace fettle::thread {

using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

Outcome<Joined> read_joined(const JoinedTyped& typed) {
    const auto read = screw::read_thread(typed.thread);
    if (const auto* refusal = std::get_if<Refusal>(&read)) return *refusal;
    Joined joined{std::get<screw::Thread>(read), "", 0, screw::kPartMaterials[1], 0, false};
    if (typed.grade == screw::kTypedStrength) {
        if (!typed.tensile_strength) {
            return Refusal{"tensile_strength",
                           "tensile_strength: nothing is typed, and the grade is \"strength "
                           "typed\"; accepted are 50 to 2500 MPa."};
        }
        joined.bolt_tensile = *typed.tensile_strength;
        joined.grade = "strength as typed";
    } else {
        const auto grade = screw::grade_for(typed.grade, joined.thread);
        if (const auto* refusal = std::get_if<Refusal>(&grade)) return *refusal;
        joined.bolt_tensile = std::get<screw::Grade>(grade).tensile;
        joined.grade = screw::grade_words(std::get<screw::Grade>(grade));
    }
    if (!typed.into.empty()) {
        const auto into = screw::part_material(typed.into);
        if (!into) {
            return Refusal{"into", line("into: ", screw::in_quotes(typed.into),
                                        " is not held here; accepted are ",
                                        screw::names_of(screw::kPartMaterials), ".")};
        }
        joined.into = *into;
    }
    joined.into_typed = typed.into_strength.has_value();
    const double usual = joined.into.tensile > 0 ? joined.into.tensile : joined.bolt_tensile;
    joined.into_tensile = typed.into_strength.value_or(usual);
    return joined;
}

double breaking_load(const screw::Thread& thread, double tensile) {
    return screw::stress_area(thread) * tensile;
}

void account_for(const Joined& joined, plugin::Account& account) {
    account.working.push_back(
        line(joined.thread.name, ", ", screw::form_name(joined.thread.form), "; bolt of ",
             joined.grade, ", tensile strength ", screw::both_stresses(joined.bolt_tensile), "; ",
             joined.into.name, " of ", screw::both_stresses(joined.into_tensile), " (",
             joined.into_typed ? "as typed" : joined.into.source, ")"));
    account.working.push_back(
        line("bolt breaks at stress area x strength = ",
             screw::both_areas(screw::stress_area(joined.thread)), " x ",
             screw::mpa(joined.bolt_tensile), " = ",
             screw::both_forces(breaking_load(joined.thread, joined.bolt_tensile))));
}

} // namespace fettle::thread
