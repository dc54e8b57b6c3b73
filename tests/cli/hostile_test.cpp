// Links, pipes, names and records meant to do harm, and who else may read and write; by the real
// program. Control characters: ECMA-48 (memory).
#include "keeping.h"

using namespace cli_tests;

TEST_CASE("links and pipes in data given in are neither followed nor waited for") {
    Keeping keeping;
    CHECK(keeping({"data", "out", keeping.out.string(), "--photos"}).code == 0);
    const auto made = (keeping.folder / "new").string();
    // Photos behind links lie outside what was given: they are missing.
    fs::rename(keeping.out / "photos", keeping.folder / "elsewhere");
    fs::create_directory(keeping.out / "photos");
    fs::create_directory_symlink(keeping.folder / "elsewhere", keeping.out / "photos" / "link");
    fs::create_directory_symlink(keeping.out / "photos", keeping.out / "photos" / "round");
    fs::create_symlink("nowhere.jpg", keeping.out / "photos" / "nowhere.jpg");
    for (const auto& file : fs::recursive_directory_iterator(keeping.folder / "elsewhere"))
        if (file.path().extension() == ".jpg")
            fs::create_symlink(file.path(), keeping.out / "photos" / file.path().filename());
    const json taken = keeping.answer({"data", "in", keeping.out.string(), made});
    CHECK(taken.at("photos") == 0);
    fs::remove_all(made);
    for (const auto* name : {"jsonl/parts.jsonl", "notebook.json"}) {
        CAPTURE(name);
        fs::remove(keeping.out / name);
        said_by("mkfifo '" + (keeping.out / name).string() + "'");
        keeping.not_made({"data", "in", keeping.out.string(), made}, name);
    }
}

TEST_CASE("a record made elsewhere cannot lead out of the notebook") {
    Keeping keeping;
    const auto secret = keeping.folder / "secret.jpg";
    fs::copy_file(keeping.shelf, secret);
    for (const std::string leads : {"../secret.jpg", secret.c_str(), "photos/../../secret.jpg"}) {
        CAPTURE(leads);
        said_by("sqlite3 '" + (keeping.book / "notebook.db").string() +
                "' \"UPDATE photos SET file = '" + leads + "' WHERE id = 1\"");
        const Ran ran = keeping({"check"});
        CHECK(ran.code == 1);
        const auto listed = keeping.answer({"photos"}).dump();
        CHECK(holds(listed, "/photos/secret.jpg\""));
        CHECK_FALSE(holds(listed, secret.string()));
        const auto zip = keeping.folder / "led.zip";
        CHECK(holds(keeping({"backup", zip.string()}).err, "does not lie within the notebook"));
        CHECK_FALSE(holds(said_by("unzip -l '" + zip.string() + "'"), "secret"));
        fs::remove(zip);
    }
}

TEST_CASE("a notebook that others may write to is told by a check and worked on all the same") {
    Keeping keeping;
    fs::permissions(keeping.book, fs::perms::others_write, fs::perm_options::add);
    const Ran ran = keeping({"check"});
    CHECK(ran.code == 0);
    CHECK(holds(ran.out, "may be written by others"));
    CHECK(holds(ran.out, "chmod go-w"));
    CHECK(keeping({"part", "add", "pin", "--tag", "P1"}).code == 0);
    fs::permissions(keeping.book, fs::perms::owner_all);
    CHECK_FALSE(holds(keeping({"check"}).out, "others"));
}

TEST_CASE("what is given out is as open as the umask says, and a closed place stays closed") {
    Keeping keeping;
    const auto open_to = [](const fs::path& path) {
        return fs::status(path).permissions() & (fs::perms::group_all | fs::perms::others_all);
    };
    const auto set = keeping.folder / "set", closed = keeping.folder / "closed";
    CHECK(keeping({"backup", keeping.zip.string()}).code == 0);
    CHECK(keeping({"carry", set.string()}).code == 0);
    CHECK(keeping({"data", "out", keeping.out.string()}).code == 0);
    // As the test's own files and folders, which the umask alone decides on.
    write_file(keeping.folder / "file", "");
    fs::create_directory(keeping.folder / "directory");
    for (const auto& file : {keeping.zip, set, keeping.shelf})
        CHECK(open_to(file) == open_to(keeping.folder / "file"));
    CHECK(open_to(keeping.out) == open_to(keeping.folder / "directory"));
    fs::create_directory(closed);
    fs::permissions(closed, fs::perms::owner_all);
    CHECK(keeping({"restore", keeping.zip.string(), closed.string()}).code == 0);
    CHECK(open_to(closed) == fs::perms::none);
    fs::permissions(keeping.zip, fs::perms::owner_read | fs::perms::owner_write);
    CHECK(keeping({"backup", keeping.zip.string()}).code == 0);
    CHECK(open_to(keeping.zip) == fs::perms::none);
}

TEST_CASE("names that are orders to a terminal come out harmless") {
    Keeping keeping;
    const std::string orders = "\x1b]0;got you\x07\x1b[31m\xc2\x9b";
    fs::create_directory(keeping.folder / orders);
    make_picture(keeping.folder / orders / (orders + ".jpg"), 11);
    (void)keeping({"part", "add", orders, "--tag", "E1"});
    (void)keeping({"log", orders});
    (void)keeping({"task", "add", orders});
    std::vector<Ran> all;
    for (const std::vector<std::string>& verb : std::vector<std::vector<std::string>>{
             {"take-in", (keeping.folder / orders).string()},
             {"take-in", "--in-place", (keeping.folder / orders).string()},
             {"take-in", (keeping.folder / orders / "none.jpg").string()},
             {"photos"},
             {"part", "list"},
             {"tasks"},
             {"log"},
             {"find", "got"},
             {"history"},
             {"data", "out", (keeping.folder / orders / "out").string()},
             {"backup", (keeping.folder / orders / "b.zip").string()},
             {"restore", (keeping.folder / orders / "b.zip").string(), orders}})
        all.push_back(keeping(verb));
    for (const auto& ran : all)
        for (const auto& said : {ran.out, ran.err})
            for (const auto* order : {"\x1b", "\x07", "\xc2\x9b"})
                CHECK_FALSE(holds(said, order));
}
