// A plugin that does the wrong thing its file is named after: the tests copy it as
// crash_at_load.so, nan_output.so and so on. Under any other name it behaves.
#include "fettle_plugin.h"

#include <dlfcn.h>
#include <fcntl.h>
#include <sys/mman.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmath>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <limits>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

namespace {

constexpr std::uint32_t kMany = 1000;

// The library's own file name without folder and ending.
const std::string& own_name() {
    static const std::string name = [] {
        Dl_info found{};
        dladdr(reinterpret_cast<void*>(&fettle_plugin_describe), &found);
        std::string path = found.dli_fname ? found.dli_fname : "";
        path.erase(0, path.rfind('/') + 1);
        return path.substr(0, path.rfind('.'));
    }();
    return name;
}

bool named(const char* fault) {
    return own_name() == fault;
}

void crash() {
    std::raise(SIGSEGV);
}

[[noreturn]] void loop() {
    for (volatile unsigned turns = 0;;)
        turns = turns + 1;
}

// Beside the library, so that the test finds it.
std::string beside(const char* name) {
    Dl_info found{};
    dladdr(reinterpret_cast<void*>(&fettle_plugin_describe), &found);
    const std::string path = found.dli_fname;
    return path.substr(0, path.rfind('/') + 1) + name;
}

void write_a_file() {
    const int file = open(beside("written").c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    if (write(file, "x", 1) != 1) crash();
}

// As a fork bomb begins; where nothing stops it, it stays harmless and the test fails.
void multiply() {
    for (int child = 0; child < 20; ++child)
        if (fork() == 0) _exit(0);
}

__attribute__((constructor)) void load() {
    if (named("writes_at_load")) write_a_file();
    if (named("multiplies_at_load")) multiply();
    if (named("crash_at_load")) crash();
    if (named("loop_at_load")) loop();
    if (named("leave_at_load")) _exit(9);
}

// The description, in plain variables so that describe() can spoil it.
fettle_input length{sizeof(fettle_input),
                    FETTLE_NUMBER,
                    "length",
                    "Length",
                    "",
                    "length",
                    "mm",
                    "10",
                    0.001,
                    1.0,
                    1,
                    0,
                    nullptr,
                    0,
                    nullptr};
fettle_input width{sizeof(fettle_input),
                   FETTLE_NUMBER,
                   "width",
                   "Width",
                   "",
                   "length",
                   "mm",
                   "",
                   NAN,
                   NAN,
                   0,
                   0,
                   nullptr,
                   0,
                   nullptr};
fettle_output area{
    sizeof(fettle_output), FETTLE_NUMBER, "area", "Area", "area", "mm2", "in2", 3, ""};
fettle_output remark{sizeof(fettle_output), FETTLE_TEXT, "remark", "Remark", "", "", "", 0, ""};
fettle_column side{sizeof(fettle_column), FETTLE_NUMBER, "side", "Side", "length", "mm", 0, 3};
fettle_column word{sizeof(fettle_column), FETTLE_TEXT, "word", "Word", "", "", 0, 0};
const fettle_input* inputs[] = {&length, &width};
const fettle_output* outputs[] = {&area, &remark};
const fettle_column* columns[] = {&side, &word};
fettle_table sides{sizeof(fettle_table), "sides", "Sides", 2, columns};
const fettle_table* tables[] = {&sides};
fettle_axis along{sizeof(fettle_axis), "Side", "length", "mm", ""};
fettle_chart drawn{sizeof(fettle_chart), "drawn", "Drawn", 0, &along, &along};
const fettle_chart* charts[] = {&drawn};

void give_row(const fettle_sink* sink, double number, std::uint32_t count) {
    const fettle_cell cells[3] = {{sizeof(fettle_cell), number, nullptr},
                                  {sizeof(fettle_cell), 0, "a"},
                                  {sizeof(fettle_cell), 0, "b"}};
    sink->row(sink->context, "sides", cells, count);
}

// Bytes that end where memory ends, so that reading beyond them is a crash.
char* last_bytes(std::size_t count) {
    const auto page = static_cast<std::size_t>(sysconf(_SC_PAGESIZE));
    void* two = mmap(nullptr, 2 * page, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (two == MAP_FAILED || munmap(static_cast<char*>(two) + page, page) != 0) std::abort();
    return static_cast<char*>(two) + page - count;
}

// More than is there.
void lie_about_sizes(const fettle_sink* sink) {
    void* to = sink->context;
    if (named("text_without_end"))
        sink->text(to, "remark", static_cast<char*>(std::memset(last_bytes(9), 'x', 9)));
    if (named("too_few_points")) {
        auto* one = reinterpret_cast<fettle_point*>(last_bytes(sizeof(fettle_point)));
        sink->series(to, "drawn", "", FETTLE_LINE, one, 50'000);
    }
    if (named("too_few_cells")) {
        auto* one = reinterpret_cast<fettle_cell*>(last_bytes(sizeof(fettle_cell)));
        one->struct_size = sizeof *one;
        sink->row(to, "sides", one, 2);
    }
    if (named("wild_points")) sink->series(to, "drawn", "", FETTLE_LINE, nullptr, 4'000'000'000U);
    if (named("wild_row")) give_row(sink, 1, 4'000'000'000U);
}

void give_wrong_outputs(const fettle_sink* sink) {
    void* to = sink->context;
    if (named("nan_output")) sink->number(to, "area", std::nan(""));
    if (named("infinite_output")) sink->number(to, "area", -HUGE_VAL);
    if (named("unknown_output")) sink->number(to, "arae", 1);
    if (named("number_as_text")) sink->number(to, "remark", 1);
    if (named("null_text")) sink->text(to, "remark", nullptr);
    if (named("null_id")) sink->number(to, nullptr, 1);
    if (named("long_text")) sink->text(to, "remark", std::string(10'000'000, 'x').c_str());
    if (named("unknown_level")) sink->note(to, 5, "what level?");
    if (named("wrong_row")) give_row(sink, 1, 3);
    if (named("infinite_cell")) give_row(sink, HUGE_VAL, 2);
    if (named("null_row")) sink->row(to, "sides", nullptr, 2);
    if (named("unknown_table")) sink->row(to, "edges", nullptr, 0);
    if (named("many_rows"))
        for (int row = 0; row < 100'001; ++row)
            give_row(sink, 1, 2);
    if (named("many_lines"))
        for (int line = 0; line < 10'001; ++line)
            sink->working(to, "and so on");
}

void allocate_without_end() {
    std::vector<char> wild(100'000'000'000);
    if (wild[wild.size() / 2] != 0) crash();
}

int recurse(int depth) {
    volatile char frame[4096] = {};
    frame[depth % 4096] = 1;
    return depth < 0 ? 0 : recurse(depth + 1) + frame[0];
}

void eat_memory() {
    std::vector<std::vector<char>> eaten;
    for (;;)
        eaten.emplace_back(1'000'000, 'x');
}

void open_unseen() {
    sigset_t all;
    sigfillset(&all);
    sigprocmask(SIG_BLOCK, &all, nullptr);
    write_a_file();
}

void open_and_shrug() {
    std::signal(SIGSYS, SIG_IGN);
    std::signal(SIGSYS, [](int) {});
    write_a_file();
}

// Bytes of its own in place of the worker's answer.
bool say_itself(const std::string& bytes) {
    for (int file = 3; file < 16; ++file)
        if (write(file, bytes.data(), bytes.size()) > 0) return true;
    return false;
}

// A frame as base/process.h has them; the length of its text may be a lie.
std::string framed(const std::string& text, std::uint32_t claimed) {
    std::string frame;
    for (int byte = 0; byte < 4; ++byte)
        frame += static_cast<char>(claimed >> (8 * byte));
    return frame + std::string(4, '\0') + text;
}

void answer_itself() {
    const std::string answer =
        R"({"outputs":{"area":7,"remark":"a\u0000b"},"tables":{},"charts":{},)"
        R"("working":[],"notes":[],"spreads":{}})";
    if (named("answers_noise")) say_itself(std::string(64, '\xff'));
    if (named("answers_itself")) say_itself(framed(answer, std::uint32_t(answer.size())));
    const std::string strange =
        R"({"failure":5,"refused":"x","serial":2})"; // as the first is asked
    if (named("fails_itself")) say_itself(framed(strange, std::uint32_t(strange.size())));
    if (named("claims_much")) say_itself(framed({}, 400U << 20));
    if (named("floods"))
        while (say_itself(std::string(100'000, '\0'))) {
        }
}

void reach_out() {
    if (named("opens_a_file")) (void)open("/etc/hostname", O_RDONLY);
    if (named("writes_a_file")) write_a_file();
    if (named("removes_a_file")) (void)unlink(beside("kept").c_str());
    if (named("makes_a_folder")) (void)mkdir(beside("made").c_str(), 0700);
    if (named("runs_a_program")) (void)system("true");
    if (named("multiplies")) multiply();
    if (named("starts_a_thread")) std::thread([] {}).join();
    if (named("uses_the_network")) (void)socket(AF_INET, SOCK_STREAM, 0);
    if (named("signals_its_caller")) kill(getppid(), 0); // (0 does nothing where it is let through)
    if (named("opens_unseen")) open_unseen();
    if (named("opens_and_shrugs")) open_and_shrug();
    answer_itself();
    if (named("closes_everything"))
        for (int file = 0; file < 64; ++file)
            close(file);
}

std::int32_t compute(const fettle_value* const* values, std::uint32_t, const fettle_sink* sink) {
    reach_out();
    if (named("eats_memory")) eat_memory();
    if (named("eats_stack")) recurse(0);
    if (named("crash_at_compute")) crash();
    if (named("abort_at_compute")) std::abort();
    if (named("leave_at_compute")) _exit(9);
    if (named("loop_at_compute")) loop();
    if (named("throw_at_compute")) throw std::runtime_error("thrown on purpose");
    if (named("throw_a_number")) throw 42;
    if (named("wild_allocation")) allocate_without_end();
    if (named("says_nothing")) return FETTLE_DONE;
    if (named("unknown_code")) return 77;
    if (named("refuses_silently")) return FETTLE_REFUSED;
    if (named("refuses_unknown")) sink->refuse(sink->context, "depth", "It is too deep.");
    if (named("refuses")) {
        sink->refuse(sink->context, "width", "wider than the stock is not to be had.");
        return FETTLE_REFUSED;
    }
    if (named("fails_when_large") && values[0]->number > 0.05) crash();
    if (named("not_utf8_at_compute")) sink->text(sink->context, "remark", "\xc3(\xff L\xc2\xbd");
    give_wrong_outputs(sink);
    lie_about_sizes(sink);
    sink->number(sink->context, "area", values[0]->number * values[0]->number);
    return FETTLE_DONE;
}

fettle_sheet square{sizeof(fettle_sheet),
                    1,
                    nullptr,
                    "Square",
                    "How large?",
                    "",
                    2,
                    inputs,
                    2,
                    outputs,
                    1,
                    tables,
                    0,
                    nullptr,
                    compute,
                    0,
                    1,
                    charts};
const fettle_sheet* sheets[] = {&square, &square};
fettle_plugin plugin{
    sizeof(fettle_plugin), FETTLE_ABI_VERSION, nullptr, "Misbehaves", "1", 1, sheets};

void spoil_structs() {
    if (named("short_plugin")) plugin.struct_size = 16;
    if (named("tiny_plugin")) plugin.struct_size = 4;
    if (named("short_sheet")) square.struct_size = 16;
    if (named("short_input")) length.struct_size = offsetof(fettle_input, columns);
    if (named("short_column")) side.struct_size = 0;
    if (named("newer_version")) plugin.abi_version = 9;
    if (named("older_version")) plugin.abi_version = 0;
    if (named("null_name")) plugin.name = nullptr;
    if (named("null_sheets")) plugin.sheets = nullptr;
    if (named("null_sheet")) sheets[0] = nullptr;
    if (named("null_input")) inputs[1] = nullptr;
    if (named("null_label")) length.label = nullptr;
    if (named("null_inputs")) square.inputs = nullptr;
    if (named("null_compute")) square.compute = nullptr;
    if (named("many_sheets")) plugin.sheet_count = kMany;
    if (named("many_inputs")) square.input_count = kMany;
    if (named("no_sheets")) plugin.sheet_count = 0;
}

void spoil_meaning() {
    static const std::string long_title(20'000, 'x');
    if (named("same_sheets")) plugin.sheet_count = 2;
    if (named("same_inputs")) width.id = "length";
    if (named("malformed_id")) width.id = "Overall Width";
    if (named("foreign_sheet")) square.id = "shim.square";
    if (named("other_name")) plugin.id = "somebody_else";
    if (named("unknown_quantity")) length.quantity = "lenght";
    if (named("foreign_unit")) length.unit = "N";
    if (named("foreign_inch")) area.inch = "in";
    if (named("unknown_shape")) width.shape = 12;
    if (named("table_output")) area.shape = FETTLE_TABLE;
    if (named("no_digits")) area.digits = 0;
    if (named("unreadable_preset")) length.preset = "ten";
    if (named("preset_too_large")) length.preset = "2 m";
    if (named("crossed_bounds")) length.least = 5;
    if (named("infinite_bound")) length.greatest = HUGE_VAL;
    if (named("no_choices")) width.shape = FETTLE_CHOICE;
    if (named("not_utf8")) length.label = "L\xffngth";
    if (named("long_title")) square.title = long_title.c_str();
}

} // namespace

extern "C" const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    static const std::string sheet_id = own_name() + ".square";
    if (named("crash_at_describe")) crash();
    if (named("loop_at_describe")) loop();
    if (named("throw_at_describe")) throw std::runtime_error("thrown on purpose");
    if (named("serves_none")) return nullptr;
    if (named("serves_seven")) plugin.abi_version = 7;
    if (named("serves_seven") && abi_version != 7) return nullptr;
    plugin.id = own_name().c_str();
    square.id = sheet_id.c_str();
    spoil_structs();
    spoil_meaning();
    return &plugin;
}
