#include "cli/photo_files.hpp"

#include <filesystem>

#include "support/catch.hpp"
#include "support/picture_files.hpp"
#include "support/scratch_folder.hpp"

using namespace hailwright;
using namespace hailwright::cli;
using hailwright::testing::jpeg_with;
using hailwright::testing::png_with;
using hailwright::testing::ScratchFolder;

namespace {

PhotoName named(const std::string& file, const std::string& shows = "what it shows") {
  return {file, {1, 7, 3, 4}, shows, "in words"};
}

std::string only_message(const PhotosRead& read) {
  REQUIRE(read.notes.items().size() == 1);
  const Diagnostic& note = read.notes.items()[0];
  CHECK(note.code == "F02");
  CHECK(note.where.line == 7);
  CHECK_FALSE(note.hints.empty());
  CHECK(read.output.empty());
  return note.message;
}

}  // namespace

TEST_CASE("photo_files: a photo comes with its words and its place in the write-up") {
  const ScratchFolder scratch;
  scratch.write("Place 14.JPG", jpeg_with({}));
  scratch.write("deep/meter.png", png_with({}));
  const PhotosRead read =
      read_photos({{{named("Place 14.JPG", "<b>"), named("deep/meter.png")}, scratch.path()}});
  CHECK(read.notes.empty());
  REQUIRE(read.of_records.size() == 1);
  const Photo& photo = read.of_records[0].at("Place 14.JPG");
  CHECK(photo.file == "photos/1-place-14.jpg");
  CHECK(photo.title == "<b>");
  CHECK(photo.description == "in words");
  CHECK(photo.media_type == "image/jpeg");
  CHECK(photo.width == 24);
  CHECK(photo.height == 16);
  CHECK(read.of_records[0].at("deep/meter.png").file == "photos/2-meter.png");
  REQUIRE(read.output.size() == 2);
  CHECK(read.output[0].name == photo.file);
  CHECK(read.output[0].bytes == photo.bytes);
}

TEST_CASE("photo_files: one file of two records is one file of the write-up") {
  const ScratchFolder scratch;
  scratch.write("shared/a.jpg", jpeg_with({}));
  const PhotosRead read = read_photos({{{named("a.jpg", "first")}, scratch / "shared"},
                                       {{}, scratch.path()},
                                       {{named("shared/./a.jpg", "second")}, scratch.path()}});
  CHECK(read.notes.empty());
  REQUIRE(read.of_records.size() == 3);
  CHECK(read.of_records[1].empty());
  CHECK(read.output.size() == 1);
  CHECK(read.of_records[0].at("a.jpg").title == "first");
  CHECK(read.of_records[2].at("shared/./a.jpg").title == "second");
  CHECK(read.of_records[0].at("a.jpg").file == read.of_records[2].at("shared/./a.jpg").file);
}

TEST_CASE("photo_files: what cannot be shown is an error at its line") {
  const ScratchFolder scratch;
  scratch.write("a.txt", "no picture");
  std::filesystem::create_directory(scratch / "folder");
  const auto message = [&](const std::string& file) {
    return only_message(read_photos({{{named(file)}, scratch.path()}}));
  };
  CHECK(message("none.jpg") == "the photo none.jpg is not there");
  CHECK(message("folder") == "the photo folder is a folder");
  CHECK(message("a.txt") == "the photo a.txt is neither a JPEG nor a PNG file");
  CHECK_THAT(message(scratch / "a.txt"), Contains("is named by its whole path"));
  scratch.write("large.jpg", "");
  std::filesystem::resize_file(scratch / "large.jpg", largest_photo + 1);
  CHECK_THAT(message("large.jpg"), Contains("too large"));
}

// Found by review: a record of a stranger could have had a write-up publish any photo of the
// machine.
TEST_CASE("photo_files: a photo outside the folder of the record is not shown") {
  const ScratchFolder scratch;
  scratch.write("private.jpg", "x");
  scratch.write("day/photos/a.jpg", "no picture");
  std::filesystem::create_symlink(scratch / "private.jpg", scratch / "day/link.jpg");
  std::filesystem::create_symlink("photos", scratch / "day/near");
  const auto message = [&](const std::string& file) {
    return only_message(read_photos({{{named(file)}, scratch / "day"}}));
  };
  for (const std::string file : {"../private.jpg", "photos/../../private.jpg", "link.jpg", "../.."})
    CHECK_THAT(message(file), Contains("lies outside the folder of the record"));
  for (const std::string file : {"photos/a.jpg", "photos/../photos/a.jpg", "near/a.jpg"})
    CHECK_THAT(message(file), Contains("is neither a JPEG nor a PNG file"));
  CHECK_THAT(message("..a.jpg"), Contains("is not there"));
}

TEST_CASE("photo_files: names are safe everywhere and tell photos apart") {
  const auto name = [](const std::string& file) {
    return photo_output_name(7, file, "image/jpeg");
  };
  CHECK(name("IMG_0012.JPG") == "photos/7-img-0012.jpg");
  CHECK(name("a/b/../c d.jpeg") == "photos/7-c-d.jpg");
  CHECK(name("\xC3\xA9t\xC3\xA9.jpg") == "photos/7-t.jpg");
  CHECK(name("...") == "photos/7.jpg");
  CHECK(name("<b>\"x\" & =1+1.jpg") == "photos/7-b-x-1-1.jpg");
  CHECK(name(std::string(300, 'a') + ".jpg") == "photos/7-" + std::string(40, 'a') + ".jpg");
  CHECK(name("-rf.jpg") == "photos/7-rf.jpg");
  CHECK(photo_output_name(2, "x.jpg", "image/png") == "photos/2-x.png");
}

TEST_CASE("photo_files: the files that were read are told") {
  const ScratchFolder scratch;
  const std::string photo = scratch.write("a.jpg", jpeg_with({}));
  const PhotosRead read = read_photos({{{named("a.jpg"), named("./a.jpg")}, scratch.path()}});
  CHECK(read.paths == std::vector<std::string>{photo});
}
