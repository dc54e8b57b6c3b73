#include "run.h"

#include "notebook/vehicles.h"

#include <sys/wait.h>

#include <algorithm>
#include <cstdlib>

namespace cli_tests {

std::string shell_word(const std::string& word) {
    std::string quoted = "'";
    for (char letter : word)
        quoted += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
    return quoted + "'";
}

void add_position(const fs::path& book, const std::string& number, const std::string& name) {
    auto notebook = fettle::Notebook::open(book, fettle::store::Access::write);
    REQUIRE(notebook.ok());
    const auto vehicle = fettle::list_vehicles(*notebook)->front().id;
    REQUIRE(fettle::add_position(*notebook, {.vehicle = vehicle,
                                             .group = "Front suspension",
                                             .number = number,
                                             .name = name,
                                             .quantity = 2})
                .ok());
}

std::string output_of(const std::string& command) {
    TempFolder scratch;
    const auto out = scratch / "out";
    REQUIRE_MESSAGE(std::system((command + " >" + shell_word(out)).c_str()) == 0, command);
    return file_text(out);
}

Ran run(const fs::path& folder, const std::vector<std::string>& arguments, const std::string& input,
        const std::string& environment) {
    TempFolder scratch;
    write_file(scratch / "in", input);
    std::string command = "cd " + shell_word(folder) +
                          " && env -u FETTLEBOOK XDG_DATA_HOME=" + shell_word(scratch.path()) +
                          ' ' + environment + ' ' + shell_word(FETTLEBOOK_BIN_DIR "/fettlebook");
    for (const auto& argument : arguments)
        command += ' ' + shell_word(argument);
    command += " <" + shell_word(scratch / "in") + " >" + shell_word(scratch / "out") + " 2>" +
               shell_word(scratch / "err");
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, file_text(scratch / "out"),
            file_text(scratch / "err")};
}

void make_picture(const fs::path& file, int seed, const std::string& taken) {
    output_of("convert -size 320x240 -seed " + std::to_string(seed) + " plasma:grey-brown " +
              shell_word(file));
    if (!taken.empty())
        output_of("exiv2 -M'set Exif.Photo.DateTimeOriginal " + taken + "' " + shell_word(file));
}

void make_giant_png(const fs::path& file) {
    output_of("python3 -c \"import struct, sys, zlib\n"
              "head = b'IHDR' + struct.pack('>IIBBBBB', 100000, 100000, 8, 2, 0, 0, 0)\n"
              "open(sys.argv[1], 'wb').write(bytes([137]) + b'PNG\\r\\n' + bytes([26, 10]) + "
              "struct.pack('>I', 13) + head + struct.pack('>I', zlib.crc32(head)) + bytes(64))\" " +
              shell_word(file));
}

Bench::Bench() {
    const Ran made = run(folder.path(), {"start", "book", "--vehicle", "Quernmore Drover"});
    REQUIRE_MESSAGE(made.code == 0, made.err);
}

Ran Bench::operator()(const std::vector<std::string>& arguments, const std::string& input) const {
    return run(book, arguments, input);
}

json Bench::answer(std::vector<std::string> arguments) const {
    arguments.emplace_back("--json");
    const Ran ran = run(book, arguments);
    REQUIRE_MESSAGE(ran.code == 0, ran.err);
    return ran.parsed();
}

std::string Bench::refused(const std::vector<std::string>& arguments,
                           const std::string& holding) const {
    const std::string before = dump();
    const Ran ran = (*this)(arguments);
    CAPTURE(arguments.front());
    CAPTURE(holding);
    CAPTURE(ran.err);
    CHECK(ran.code == 1);
    CHECK(ran.one_sentence());
    CHECK(holds(ran.err, holding));
    CHECK(dump() == before);
    return ran.err;
}

std::string Bench::photo(const std::string& name, int seed) const {
    make_picture(folder / name, seed);
    return answer({"take-in", (folder / name).string()}).at("taken").at(0).dump();
}

std::string Bench::dump() const {
    std::string all = output_of("sqlite3 " + shell_word(book / "notebook.db") + " .dump");
    std::vector<std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(book / "photos"))
        files.push_back(entry.path().string());
    std::ranges::sort(files);
    for (const auto& file : files)
        all += file + '\n';
    return all;
}

} // namespace cli_tests
