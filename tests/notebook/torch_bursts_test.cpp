#include "notebook/fixture.h"
#include "notebook/torch_bursts.h"

using namespace fettle;

namespace {

// Photos of one camera, so many seconds after 19:42 each.
std::vector<Photo> taken_at(const std::vector<int>& seconds, std::uint64_t likeness = 0,
                            const std::string& camera = "Wharnscope") {
    std::vector<Photo> photos;
    for (const int second : seconds) {
        Photo photo;
        photo.id = PhotoId{second + 1};
        photo.taken = must(parse_moment("2026-03-07T19:42:00"));
        photo.taken->local += std::chrono::seconds(second);
        photo.width = 640;
        photo.height = 480;
        photo.camera_make = camera;
        photo.likeness = photos.size() % 2 == 0 ? 0 : likeness;
        photos.push_back(photo);
    }
    return photos;
}

} // namespace

TEST_CASE("four photos and more, half a minute apart at most, are suggested as a torch set") {
    CHECK(torch_bursts(taken_at({0, 30, 60, 90})).size() == 1);
    CHECK(torch_bursts(taken_at({0, 30, 60})).empty());
    CHECK(torch_bursts(taken_at({0, 30, 61, 91})).empty()); // a pause of 31 s
    CHECK(torch_bursts({}).empty());
}

TEST_CASE("photos of another size, without a time or without figures are in no set") {
    auto photos = taken_at({0, 10, 20, 30, 40});
    photos[2].likeness.reset();
    CHECK(torch_bursts(photos).front().size() == 4);
    photos[1].taken.reset();
    CHECK(torch_bursts(photos).empty());
    auto sizes = taken_at({0, 10, 20, 30});
    sizes[3].width = 480;
    CHECK(torch_bursts(sizes).empty());
}

TEST_CASE("a run of more than 24 is cut, and what is left of it counts by itself") {
    std::vector<int> seconds;
    for (int i = 0; i < 29; ++i)
        seconds.push_back(i);
    const auto sets = torch_bursts(taken_at(seconds));
    REQUIRE(sets.size() == 2);
    CHECK(sets[0].size() == 24);
    CHECK(sets[1].size() == 5);
}

TEST_CASE("the set whose photos are most alike comes first") {
    auto photos = taken_at({0, 5, 10, 15}, 0xffff);
    const auto alike = taken_at({100, 105, 110, 115}, 0x3);
    const auto another = taken_at({102, 107, 112, 117}, 0xffff'ffff, "Another");
    photos.insert(photos.end(), alike.begin(), alike.end());
    photos.insert(photos.end(), another.begin(), another.end());
    const auto sets = torch_bursts(photos);
    REQUIRE(sets.size() == 3);
    CHECK(sets[0].front().id == PhotoId{101});
    CHECK(sets[1].front().id == PhotoId{1});
    CHECK(sets[2].front().id == PhotoId{103});
}
