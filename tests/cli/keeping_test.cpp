// Data out and in, backups and the check by the real program, judged by others: Python's json, csv
// and zipfile, unzip, xxhsum and sqlite3. Forms: JSON Lines (jsonlines.org) with RFC 8259, RFC
// 4180, zip by ISO/IEC 21320-1 (all: memory).
#include "keeping.h"
#include "small_disk.h"

#include <set>

using namespace cli_tests;

TEST_CASE("everything goes out in forms that others read, and comes back equal, photos too") {
    Keeping keeping;
    const json report = keeping.answer({"data", "out", keeping.out.string(), "--photos"});
    CHECK(report.at("photos") == 3);
    keeping.python(R"py(
import csv, glob, json, os, sqlite3
book = sqlite3.connect('file:book/notebook.db?mode=ro', uri=True)
head = json.load(open('out/notebook.json'))
tables = [os.path.basename(n)[:-6] for n in glob.glob('out/jsonl/*.jsonl')]
assert len(tables) > 30 and sorted(tables) == sorted(head['rows'])
for table in tables:
    count = book.execute('select count(*) from ' + table).fetchone()[0]
    names = [c[1] for c in book.execute("pragma table_info('%s')" % table)]
    lines = open('out/jsonl/%s.jsonl' % table, encoding='utf-8', newline='').read().split('\n')
    assert lines.pop() == '' and len(lines) == count == head['rows'][table], table
    for line in lines:
        assert list(json.loads(line)) == names
    raw = open('out/csv/%s.csv' % table, encoding='utf-8', newline='')
    rows = list(csv.reader(raw, strict=True))
    assert rows[0] == names and len(rows) == count + 1, table
    assert all(len(row) == len(names) for row in rows)
    assert '## ' + table in open('out/README.md', encoding='utf-8').read()
)py");
    const std::string before = record_text(keeping.book);
    for (const char* form : {"", "--csv"}) {
        const auto back = keeping.folder / (std::string("back") + form);
        std::vector<std::string> arguments{"data", "in", keeping.out.string(), back.string()};
        if (*form) arguments.emplace_back(form);
        const json read = keeping.answer(arguments);
        CHECK(read.at("photos") == 2); // the third stands where it stood
        CHECK(read.at("missing_photos").empty());
        CHECK(record_text(back) == before);
        said_by("diff -r '" + (keeping.book / "photos").string() + "' '" +
                (back / "photos").string() + "'");
        CHECK(run(back, {"check"}).code == 0);
    }
    // The one left in place is brought when it is no longer there.
    fs::remove(keeping.folder / "Präge.jpg");
    fs::remove(keeping.out / "photos" / "a.jpg");
    const Ran read = keeping({"data", "in", keeping.out.string(), (keeping.folder / "c").string()});
    CHECK(holds(read.out, "1 missing"));
    CHECK(holds(read.err, "a.jpg"));
    CHECK(holds(output_of("ls " + shell_word(keeping.folder / "c/photos/outside")), ".jpg"));
}

TEST_CASE("data that were damaged are refused by file, line, field, value and what is accepted") {
    Keeping keeping;
    CHECK(keeping({"data", "out", keeping.out.string()}).code == 0);
    struct Damage {
        const char *file, *from, *to, *form, *said;
    };
    const std::vector<Damage> damages = {
        {"jsonl/parts.jsonl", "as found", "rusty", "",
         "jsonl/parts.jsonl, line 1, field \"condition\": \"rusty\" is not accepted here; accepted "
         "is as found, stripped"},
        {"csv/parts.csv", "as found", "rusty", "--csv",
         "csv/parts.csv, row 2, field \"condition\": \"rusty\""},
        {"jsonl/parts.jsonl", "\"quantity\":1", "\"quantity\":\"1\"", "",
         "line 1, field \"quantity\": the text \"1\" is not accepted here; accepted is a whole "
         "number"},
        {"jsonl/parts.jsonl", "\"quantity\":1", "\"quantity\":0", "", "at least 1"},
        {"jsonl/parts.jsonl", "\"quantity\":1", "\"colour\":1", "",
         "there is no column \"colour\""},
        {"jsonl/parts.jsonl", "\"quantity\":1,", "", "", "line 1 has no field \"quantity\""},
        {"jsonl/parts.jsonl", "\"name\":", "\"name\"", "", "line 1"},
        {"jsonl/parts.jsonl", "\"tag\":", "\"id\":", "", "the field \"id\" twice"},
        {"jsonl/parts.jsonl", "\"tag\":\"H7\"", "\"tag\":null", "", "field \"tag\": nothing"},
        {"csv/parts.csv", ",quantity,", ",colour,", "--csv", "no column \"colour\""},
        {"csv/parts.csv", "H7,", "H7,extra,", "--csv", "row 2 has "},
        {"csv/entries.csv", "heat", "\"heat", "--csv", "entries.csv"},
        {"jsonl/ties.jsonl", "\"part_id\":1", "\"part_id\":99", "",
         "jsonl/ties.jsonl, line 1, field \"part_id\": 99 names no row of parts"},
        {"jsonl/photos.jsonl", "\"id\":2", "\"id\":1", "",
         "line 2, field \"id\": 1 stands in another row already"},
        {"jsonl/photos.jsonl", "\"file\":\"photos/", "\"file\":\"../photos/", "", "without .."},
        {"jsonl/photos.jsonl", "\"file\":\"photos/", "\"file\":\"/etc/", "",
         "a path below photos/"},
        {"jsonl/entries.jsonl", "\"on_date\":\"2", "\"on_date\":\"9x2", "", "a day such as"},
        {"jsonl/tasks.jsonl", "\"state\":\"open\"", "\"state\":\"shut\"", "",
         "open, done, dropped"},
        {"jsonl/costs.jsonl", "", "[1]\n", "", "no JSON object"},
        {"jsonl/task_needs.jsonl", "", "{\"task_id\":1,\"needs_id\":1}\n", "", "rule of its table"},
        {"notebook.json", "\"schema\": 6", "\"schema\": 999", "", "later version"},
        {"notebook.json", "\"fettlebook_data\"", "\"other\"", "", "fettlebook_data"},
        {"jsonl/wheels.jsonl", "", "{}\n", "", "jsonl/wheels.jsonl belongs to no table"},
    };
    const auto made = (keeping.folder / "new").string();
    for (const auto& [name, from, to, form, said] : damages) {
        CAPTURE(name);
        CAPTURE(said);
        const auto file = keeping.out / name;
        const bool was_there = fs::exists(file);
        const std::string whole = was_there ? file_text(file) : "";
        const auto at = whole.find(from);
        REQUIRE(at != std::string::npos);
        write_file(file, std::string(whole).replace(at, std::string(from).size(), to));
        std::vector<std::string> arguments{"data", "in", keeping.out.string(), made};
        if (*form) arguments.emplace_back(form);
        keeping.not_made(arguments, said);
        was_there ? write_file(file, whole) : void(fs::remove(file));
    }
    fs::remove(keeping.out / "jsonl/parts.jsonl");
    keeping.not_made({"data", "in", keeping.out.string(), made}, "parts.jsonl is missing");
    keeping.refused({"data", "in", keeping.out.string(), keeping.book.string()}, "not empty");
    keeping.refused({"data", "out", keeping.book.string()}, "not empty");
    keeping.not_made({"data", "in", keeping.book.string(), made}, "notebook.json");
}

TEST_CASE("a backup is a zip file that others read, and restores everything") {
    Keeping keeping;
    write_file(keeping.book / "receipt.txt", "paid");
    const json report = keeping.answer({"backup", keeping.zip.string()});
    CHECK(report.at("photos") == 3);
    CHECK(report.at("verified") == true);
    CHECK(report.at("left_out").empty());
    said_by("unzip -tq '" + keeping.zip.string() + "'");
    said_by("mkdir '" + (keeping.folder / "by hand").string() + "' && cd '" +
            (keeping.folder / "by hand").string() +
            "' && unzip -q ../b.zip && xxhsum -q -c hashes.txt");
    keeping.python("import zipfile\nz = zipfile.ZipFile('b.zip')\nassert z.testzip() is None\n"
                   "assert 'notebook/receipt.txt' in z.namelist()\n");
    const auto there = keeping.folder / "r";
    const json restored = keeping.answer({"restore", keeping.zip.string(), there.string()});
    CHECK(restored.at("moved_in") == 0); // it stands where it stood
    CHECK(record_text(there) == record_text(keeping.book));
    said_by("diff -r '" + (keeping.book / "photos").string() + "' '" + (there / "photos").string() +
            "'");
    CHECK(file_text(there / "receipt.txt") == "paid");
    CHECK(run(there, {"undo"}).code == 0); // history came along
    // Elsewhere the photo that stood outside comes in.
    fs::remove(keeping.folder / "Präge.jpg");
    const auto moved = keeping.folder / "m";
    CHECK(keeping.answer({"restore", keeping.zip.string(), moved.string()}).at("moved_in") == 1);
    CHECK(run(moved, {"check"}).code == 0);
    // And is told when it is backed up without it; the older backup gives way all the same.
    const Ran without = keeping({"backup", keeping.zip.string()});
    CHECK(without.code == 1);
    CHECK(holds(without.err, "Präge.jpg, is not there and is left out"));
}

TEST_CASE("a backup is not put where it would be lost or destroy something") {
    Keeping keeping;
    write_file(keeping.folder / "letter.zip", "not ours");
    keeping.refused({"backup", (keeping.folder / "letter.zip").string()}, "is no backup");
    CHECK(file_text(keeping.folder / "letter.zip") == "not ours");
    keeping.refused({"backup", (keeping.book / "b.zip").string()}, "within the notebook");
    keeping.refused({"backup", keeping.folder.path().string()}, "is a folder");
    keeping.refused({"backup", (keeping.folder / "none/b.zip").string()}, "none");
    CHECK(keeping({"backup", keeping.zip.string()}).code == 0);
    keeping.refused({"restore", keeping.zip.string(), keeping.book.string()}, "not empty");
}

TEST_CASE("damaged, cut and hostile backups are refused, and nothing is made") {
    Keeping keeping;
    CHECK(keeping({"backup", keeping.zip.string()}).code == 0);
    const std::string whole = file_text(keeping.zip);
    const auto made = (keeping.folder / "new").string();
    const auto bad = keeping.folder / "bad.zip";
    const auto refuse = [&](const std::string& bytes, const std::string& said) {
        write_file(bad, bytes);
        keeping.not_made({"restore", bad.string(), made}, said);
    };
    for (const double share : {0.0, 0.1, 0.5, 0.9, 0.999}) {
        CAPTURE(share);
        refuse(whole.substr(0, std::size_t(double(whole.size()) * share)), "bad.zip");
    }
    for (const double share : {0.02, 0.3, 0.6, 0.8}) { // within what is stored
        CAPTURE(share);
        std::string flipped = whole;
        auto& byte = flipped[std::size_t(double(whole.size()) * share)];
        byte = char(byte ^ 0x10);
        refuse(flipped, "bad.zip");
    }
    // Made anew with another program, with something wrong in each.
    keeping.python(R"py(
import zipfile, stat
def again(name, change):
    new = zipfile.ZipFile(name, 'w')
    for info in zipfile.ZipFile('b.zip').infolist():
        change(new, info, zipfile.ZipFile('b.zip').read(info))
    return new
def keep(new, info, data): new.writestr(info, data)
def altered(new, info, data):
    new.writestr(info, data[:-1] + b'?' if info.filename.endswith('.jpg') else data)
def without(new, info, data):
    if not info.filename.endswith('.jpg'): new.writestr(info, data)
def newer(new, info, data): new.writestr(info, data.replace(b'"schema": 6', b'"schema": 999'))
again('same.zip', keep).close()
again('altered.zip', altered).close()
again('without.zip', without).close()
again('newer.zip', newer).close()
for name, entry in (('up', 'notebook/../../evil'), ('root', '/tmp/evil'), ('other', 'evil')):
    new = again(name + '.zip', keep); new.writestr(entry, 'x'); new.close()
for name, entries in (('both', ('notebook/papers/a', 'notebook/papers/a/b')),
                      ('reversed', ('notebook/papers/a/b', 'notebook/papers/a')),
                      ('onto', ('notebook/photos', )), ('long', ('notebook/' + 'n' * 300, )),
                      ('twice', ('outside/x', 'notebook/photos/outside/x'))):
    new = again(name + '.zip', keep)
    for entry in entries: new.writestr(entry, 'x')
    new.close()
new = again('nul.zip', keep); new.writestr('notebook/no@name', 'x'); new.close()
data = open('nul.zip', 'rb').read().replace(b'notebook/no@name', b'notebook/no\0name')
open('nul.zip', 'wb').write(data)
new = again('link.zip', keep)
link = zipfile.ZipInfo('notebook/photos/link'); link.create_system = 3
link.external_attr = (stat.S_IFLNK | 0o777) << 16
new.writestr(link, '/etc'); new.close()
)py");
    for (const auto& [name, said] : std::vector<std::pair<std::string, std::string>>{
             {"altered", "is damaged"},
             {"without", "is missing"},
             {"newer", "later version"},
             {"up", "notebook/../../evil"},
             {"root", "/tmp/evil"},
             {"other", "does not lie in"},
             {"both", "a file and a folder at once"},
             {"reversed", "a file and a folder at once"},
             {"onto", "a file and a folder at once"},
             {"long", "File name too long"},
             {"twice", "is there twice"},
             {"nul", "does not lie in"},
             {"link", "is a link"}}) {
        CAPTURE(name);
        keeping.not_made({"restore", (keeping.folder / (name + ".zip")).string(), made}, said);
    }
    CHECK_FALSE(fs::exists(keeping.folder / "evil"));
    CHECK(keeping({"restore", (keeping.folder / "same.zip").string(), made}).code == 0);
}

TEST_CASE("a check names what is gone, altered, moved and left over, and mends what can be") {
    Keeping keeping;
    CHECK(keeping({"check"}).out == "3 photos looked at; nothing is wrong\n");
    const auto other = keeping.shelf.parent_path() / "b.jpg";
    REQUIRE(fs::exists(other));
    fs::rename(keeping.shelf, keeping.book / "photos" / "moved.jpg");
    std::string bytes = file_text(other);
    bytes[bytes.size() / 2] = char(bytes[bytes.size() / 2] ^ 1);
    write_file(other, bytes);
    fs::remove(keeping.folder / "Präge.jpg");
    write_file(keeping.book / "photos" / "stray.jpg", "stray");
    const auto half =
        keeping.book / "photos" / ".half-copy-4194305-1"; // no process has that number
    write_file(half, "half");
    write_file(keeping.book / "cache" / "thumbs.db", "no database");
    said_by("sqlite3 '" + (keeping.book / "notebook.db").string() +
            "' \"UPDATE words SET text = 'lost' WHERE rowid = 17\"");

    const Ran ran = keeping({"check", "--json"});
    CHECK(ran.code == 1);
    const json found = ran.parsed();
    CHECK(found.at("wrong") == 5);
    std::map<std::string, std::string> sentences;
    for (const auto& finding : found.at("findings")) {
        CHECK_FALSE(finding.at("advice").get<std::string>().empty());
        sentences[finding.at("kind")] += finding.at("sentence").get<std::string>();
    }
    CHECK(holds(sentences["photo moved"], "was moved to photos/moved.jpg."));
    CHECK(holds(sentences["photo altered"], "b.jpg"));
    CHECK(holds(sentences["photo gone"], "Präge.jpg"));
    CHECK(holds(sentences["leftover"], "photos/stray.jpg is the file of no photo"));
    CHECK(holds(sentences["cache"], "thumbs.db"));
    CHECK(holds(sentences["words"], "index of words"));

    CHECK(keeping({"check", "--mend"}).code == 1); // what is gone and altered stays so
    CHECK_FALSE(fs::exists(half));
    CHECK(fs::exists(keeping.book / "photos" / "stray.jpg")); // the user's to decide
    const json after = keeping({"check", "--json"}).parsed();
    CHECK(after.at("wrong") == 2);
    CHECK(holds(keeping({"find", "hanger"}).out, "H7"));
    CHECK(holds(keeping.answer({"photos"}).at(0).at("file"), "/photos/moved.jpg"));
    CHECK(keeping({"undo"}).code == 0); // the photo's new place is an act
    CHECK(holds(keeping({"check"}).out, "photos/moved.jpg"));
}

TEST_CASE(
    "photos gone or altered come back by their content, under other names and from elsewhere") {
    Keeping keeping;
    const auto original = file_text(keeping.shelf);
    const auto other = keeping.shelf.parent_path() / "b.jpg";
    const auto whole = file_text(other);
    auto altered = whole;
    altered[altered.size() / 2] = char(altered[altered.size() / 2] ^ 1);
    fs::remove(keeping.shelf);
    write_file(other, altered);
    CHECK(keeping.answer({"take-in", (keeping.folder / "Präge.jpg").string()})
              .at("came_back")
              .empty()); // a sound one is left where it is
    // By the same names there are other pictures, by other names these.
    const auto card = keeping.folder / "card" / "deeper";
    fs::create_directories(card);
    write_file(card / "x1.jpg", whole);
    write_file(card / "x2.jpg", original);
    make_picture(card / "a.jpg", 9);
    const json again = keeping.answer({"take-in", (keeping.folder / "card").string()});
    CHECK(again.at("came_back").size() == 2);
    CHECK(again.at("taken").size() == 1);
    CHECK(file_text(other) == altered); // not ours to throw away
    const json found = keeping({"check", "--json"}).parsed();
    CHECK(found.at("wrong") == 0);
    REQUIRE(found.at("findings").size() == 1);
    CHECK(found.at("findings")[0].at("kind") == "leftover");
    std::set<std::string> held;
    for (const auto& photo : keeping.answer({"photos"}))
        held.insert(file_text(fs::path(photo.at("file").get<std::string>())));
    CHECK(held.contains(original));
    CHECK(held.contains(whole));
    CHECK(keeping.answer({"photos"}).size() == 4);
    CHECK(holds(keeping({"part", "show", "H7"}).out, "before")); // the tie is as it was
}

TEST_CASE("what killed work has left is told by a check, deleted by mending and by the next work") {
    Keeping keeping;
    // No process has that number.
    const fs::path beside = keeping.folder / ".book.half-4194305",
                   fresh = keeping.book / "notebook.db.fresh",
                   carried = keeping.book / "met" / "carried-4194305-abcdefgh.half",
                   noted = keeping.book / "last-backup.json-4194305-abcdefgh.half",
                   unpacking = keeping.book / "met" / "unpacking-4194305-abcdefgh";
    const auto leave = [&] {
        for (const auto& folder : {beside, unpacking})
            fs::create_directories(folder / "photos");
        for (const auto& file : {fresh, carried, noted})
            write_file(file, "half");
    };
    leave();
    const Ran told = keeping({"check"});
    CHECK(told.code == 0); // it is in nobody's way
    for (const auto& left : {beside, fresh, carried, noted, unpacking})
        CHECK(holds(told.out, left.string() + " was left by work that was cut short."));
    CHECK(keeping({"check", "--mend"}).code == 0);
    for (const auto& left : {beside, fresh, carried, noted, unpacking})
        CHECK_FALSE(fs::exists(left));

    leave();
    const auto zip = keeping.folder / ".b.zip.half-4194305-abcdefgh",
               set = keeping.folder / "set-4194305-abcdefgh.half",
               living = keeping.folder / (".b.zip.half-" + std::to_string(getppid()));
    fs::create_directory(zip);
    fs::create_directory(living);
    write_file(set, "half");
    (void)keeping({"backup", (keeping.folder / "b.zip").string()});
    (void)keeping.answer({"carry", (keeping.folder / "set").string()});
    for (const auto& left : {zip, set, carried, noted, unpacking})
        CHECK_FALSE(fs::exists(left));
    CHECK(fs::exists(living));
    fs::remove_all(keeping.book);
    const auto zipped = (keeping.folder / "b.zip").string();
    CHECK(run(keeping.folder.path(), {"restore", zipped, keeping.book.string()}).code == 0);
    CHECK_FALSE(fs::exists(beside));
}

TEST_CASE(
    "on a full disk whatever is given out is refused in a sentence and leaves nothing there") {
    Keeping keeping;
    const SmallDisk disk(64);
    if (!disk.mounted()) {
        MESSAGE("skipped: no small disk can be mounted here");
        return;
    }
    const auto backup = (keeping.folder / "b.zip").string(), out = (keeping.folder / "o").string(),
               set = (keeping.folder / "set").string();
    (void)keeping({"backup", backup});
    (void)keeping.answer({"data", "out", out, "--photos"});
    (void)keeping.answer({"carry", set});
    disk.fill();
    const auto there = [&](const char* name) { return (disk / name).string(); };
    for (const auto& verb :
         std::vector<std::vector<std::string>>{{"backup", there("b.zip")},
                                               {"data", "out", there("data"), "--photos"},
                                               {"carry", there("set")},
                                               {"restore", backup, there("book")},
                                               {"data", "in", out, there("book")},
                                               {"meet", set, "--notebook", there("book")}}) {
        CAPTURE(verb[0]);
        const Ran ran = run(keeping.book, verb);
        CHECK(ran.code == 1);
        CHECK_MESSAGE(ran.one_sentence(), ran.err);
        for (const auto& entry : fs::directory_iterator(disk / "."))
            CHECK_MESSAGE(entry.path().filename() == "filler", entry.path());
    }
    CHECK(keeping({"check"}).code == 0);
}

TEST_CASE(
    "a take-in that fills the disk leaves whole copies only, and goes on when there is room") {
    const SmallDisk disk(1500);
    if (!disk.mounted()) {
        MESSAGE("skipped: no small disk can be mounted here");
        return;
    }
    Keeping keeping;
    const auto book = disk / "book", pictures = keeping.folder / "pictures";
    REQUIRE(run(keeping.folder.path(), {"start", book.string(), "--vehicle", "Drover"}).code == 0);
    fs::create_directory(pictures);
    for (int number = 10; number < 14; ++number)
        (void)output_of("convert -size 1000x1000 -seed " + std::to_string(number) +
                        " xc:gray +noise Random -quality 95 " +
                        shell_word(pictures / (std::to_string(number) + ".jpg")));
    const Ran ran = run(book, {"take-in", pictures.string()});
    CHECK(ran.code == 1);
    CHECK(holds(ran.err, "No space left on device."));
    for (const auto& entry : fs::recursive_directory_iterator(book / "photos"))
        CHECK_FALSE(entry.path().filename().native().starts_with("."));
    fs::remove_all(book / "cache");
    const Ran checked = run(book, {"check"});
    CHECK_MESSAGE(checked.code == 0, checked.out);
    disk.grow(20'000);
    CHECK(run(book, {"take-in", pictures.string()}).code == 0);
    CHECK(json::parse(run(book, {"photos", "--json"}).out).size() == 4);
    CHECK(run(book, {"check"}).code == 0);
}

TEST_CASE("a damaged database is a finding that leads to the backup, and is not backed up") {
    Keeping keeping;
    CHECK(keeping({"backup", keeping.zip.string()}).code == 0);
    said_by("sqlite3 '" + (keeping.book / "notebook.db").string() +
            "' 'PRAGMA wal_checkpoint(TRUNCATE); PRAGMA journal_mode = DELETE'");
    std::string bytes = file_text(keeping.book / "notebook.db");
    for (std::size_t at = bytes.size() / 2; at < bytes.size(); at += 512)
        bytes[at] = char(bytes[at] ^ 0x55);
    write_file(keeping.book / "notebook.db", bytes);
    const Ran ran = keeping({"check"});
    CHECK(ran.code == 1);
    CHECK(holds(ran.out, "damaged"));
    CHECK(holds(ran.out, "restore FILE DIR"));
    const Ran backup = keeping({"backup", keeping.zip.string()});
    CHECK(backup.code == 1);
    CHECK(backup.one_sentence());
    CHECK(keeping({"restore", keeping.zip.string(), (keeping.folder / "r").string()}).code == 0);
}

TEST_CASE("a damaged notebook is salvaged into another, photos too, and left as it was") {
    Keeping keeping;
    const auto file = keeping.book / "notebook.db";
    const json parts = keeping.answer({"part", "list"}), log = keeping.answer({"log", "--list"});
    said_by("sqlite3 '" + file.string() +
            "' 'PRAGMA wal_checkpoint(TRUNCATE); PRAGMA journal_mode = DELETE'");
    const auto root = std::size_t(
        std::stoul(said_by("sqlite3 '" + file.string() +
                           "' \"SELECT rootpage FROM sqlite_schema WHERE name = 'parts'\"")));
    std::string bytes = file_text(file);
    bytes.replace((root - 1) * 4096, 4096, 4096, char(0xa5));
    write_file(file, bytes);
    CHECK(holds(keeping({"part", "list"}).err, "fettlebook salvage DIR OUT"));
    const auto out = (keeping.folder / "saved").string();
    const Ran ran = keeping({"salvage", keeping.book.string(), out});
    CHECK(ran.code == 1); // a page was lost, and that is told
    CHECK(holds(ran.out, "parts: 1 row saved, 1 of them from the changes kept"));
    CHECK(holds(ran.out, "2 photos copied")); // the third lies elsewhere and stays there
    CHECK(file_text(file) == bytes);
    CHECK(keeping.answer({"part", "list", "--notebook", out}) == parts);
    CHECK(keeping.answer({"log", "--list", "--notebook", out}) == log);
    keeping.refused({"salvage", keeping.book.string(), out}, "saved");
    keeping.refused({"salvage", keeping.book.string(), (keeping.book / "in").string()},
                    "name one elsewhere");
    keeping.refused({"salvage", (keeping.folder / "none").string(), out}, "There is no database");
}
