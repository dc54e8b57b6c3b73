// All verbs of the command line, one file a subject. Each adds its own to the line.
#pragma once

namespace fettle::cli {

struct Line;

void add_start(Line& line);          // start
void add_take_in(Line& line);        // take-in
void add_watch(Line& line);          // watch
void add_photos(Line& line);         // photos
void add_export(Line& line);         // export, sidecars
void add_tie(Line& line);            // tie
void add_runs(Line& line);           // runs list, accept, dismiss, move, propose
void add_clock(Line& line);          // clock
void add_tags(Line& line);           // tags
void add_positions(Line& line);      // positions
void add_position_verbs(Line& line); // position add, show, set, choose, remove
void add_missing(Line& line);        // missing
void add_parts(Line& line);        // part add, show, list, set, use, divide, split, join, take-out
void add_tasks(Line& line);        // task add, set, show, list, next, done
void add_bench(Line& line);        // bench
void add_rebuild(Line& line);      // rebuild
void add_log(Line& line);          // log
void add_marks(Line& line);        // mark
void add_makers(Line& line);       // makers
void add_measure(Line& line);      // measure, limits
void add_evidence(Line& line);     // evidence
void add_send(Line& line);         // send
void add_receive(Line& line);      // receive, consignments, packing-list, claim-pack
void add_costs(Line& line);        // cost add, list, remove; estimate; costs
void add_people(Line& line);       // people, credits
void add_calc(Line& line);         // calc
void add_book(Line& line);         // book, since
void add_torch(Line& line);        // torch
void add_find(Line& line);         // find
void add_history(Line& line);      // undo, redo
void add_two_machines(Line& line); // carry, meet, differences list, differences settle
void add_keeping(Line& line);      // check, backup, restore
void add_salvage(Line& line);      // salvage
void add_data(Line& line);         // data out, in
void add_demo(Line& line);         // demo

} // namespace fettle::cli
