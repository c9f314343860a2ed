// A customer's book of a very large build beside one of a small one, in one run: seconds, pages,
// bytes, and the most memory the program ever held; then the same at the window, and for how long
// it stood still at the most. Aim: 30 s and 1 GiB for 400 photos, every sheet filled and 60 pulls.
// With a folder named, the books are left there to be looked at.
#include <sys/resource.h>

#include <QApplication>
#include <QElapsedTimer>
#include <QImage>
#include <QTemporaryDir>
#include <QThread>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <stdexcept>

#include "app/book/book_templates.h"
#include "app/book/customer_book.h"
#include "app/edit_stack/shop_session.h"
#include "app/first_run/demo_shop.h"
#include "app/handoff/book_page.h"
#include "app/work/build_sheets.h"
#include "app/work/output_file.h"
#include "db/attachments.h"
#include "db/history.h"
#include "db/record_fields.h"
#include "db/record_shape.h"
#include "render/renderer.h"

namespace rodway {
namespace {

constexpr std::int64_t small_build = 2;
constexpr std::int64_t large_build = 1;
constexpr int photos = 400;
constexpr int pulls = 60;
constexpr int rows_of_a_pull = 12;

template <typename Value>
Value need(Result<Value> result) {
    if (!result) throw std::runtime_error(result.error().field + " " + result.error().value);
    return std::move(result).value();
}

/// Collects records and writes them as one act.
class Records {
  public:
    explicit Records(ShopSession& session) : session_(session) {}
    template <typename Record>
    void add(Record record) {
        auto& next = next_[RecordShape<Record>::kind];
        if (next == 0) next = need(new_id_of(RecordShape<Record>::kind));
        record.id = next++;
        const auto edits = edits_to_create(record);
        edits_.insert(edits_.end(), edits.begin(), edits.end());
    }
    void write() { need(session_.act(std::move(edits_), "fill")); }

  private:
    Result<std::int64_t> new_id_of(RecordKind kind);
    ShopSession& session_;
    std::map<RecordKind, std::int64_t> next_;
    std::vector<Edit> edits_;
};

Result<std::int64_t> Records::new_id_of(RecordKind kind) {
    return new_id(session_.shop(), kind);
}

Reading reading(const std::string& quantity, const std::string& position, const std::string& text) {
    Reading one;
    one.build_id = large_build;
    one.quantity = quantity;
    one.position = position;
    one.text = text;
    one.taken_by = "MH";
    one.taken_at = "2026-11-20T10:00:00Z";
    return one;
}

/// At every usual position of every sheet something that its quantity can be.
void fill_sheets(ShopSession& session, Records& records) {
    const auto sheets = need(BuildSheets::load(session.shop(), large_build));
    for (const SheetKind& kind : sheets.kinds()) {
        const AssessedSheet sheet = sheets.assess(kind, EntryOrder::by_number);
        for (const SheetLine& line : sheet.lines) {
            for (const SheetBox& box : line.boxes) {
                for (const char* text :
                     {".0123", "2.448", "62", "yes", "looked at, as it should be"}) {
                    if (reading_to_keep(line.quantity, box.position, text)) {
                        records.add(reading(line.quantity.id, box.position, text));
                        break;
                    }
                }
            }
        }
    }
}

void fill_pulls(Records& records) {
    for (int pull = 1; pull <= pulls; ++pull) {
        const std::string name = "pull " + std::to_string(pull);
        records.add(reading("pull_air_pressure", name, "29.3"));
        records.add(reading("pull_barometer_kind", name, "station"));
        records.add(reading("pull_dry_bulb", name, "78"));
        records.add(reading("pull_humidity", name, "45"));
        records.add(reading("pull_correction", name, "j1349"));
        for (int row = 0; row < rows_of_a_pull; ++row) {
            const int rpm = 3000 + 300 * row;
            const std::string torque = std::to_string(380 + 6 * row - row * row + pull % 5) + ".5";
            records.add(reading("pull_torque", name + ' ' + std::to_string(rpm) + " rpm", torque));
        }
    }
}

void fill_photos(ShopSession& session, const QString& folder, Records& records) {
    for (int at = 0; at < photos; ++at) {
        QImage image(3000, 2000, QImage::Format_RGB32);
        for (int y = 0; y < image.height(); ++y) {
            auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
            for (int x = 0; x < image.width(); ++x) {
                line[x] = qRgb((x * 7 + at * 31) & 255, (y * 5 + x / 9) & 255, (x + y + at) & 255);
            }
        }
        const QString file = folder + QStringLiteral("/photo-%1.jpg").arg(at);
        if (!image.save(file, "JPEG", 85)) throw std::runtime_error("photo");
        const StoredFile kept = need(keep(session.shop(), file.toStdString()));
        Photo photo;
        photo.build_id = large_build;
        photo.digest = kept.digest;
        photo.file_name = kept.file_name;
        photo.caption = "Photo " + std::to_string(at + 1) + " of the build, as it stood";
        photo.in_book = true;
        photo.added_at = "2026-11-20T10:00:00Z";
        records.add(photo);
    }
}

double peak_MiB() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

void measure(ShopFile& shop, std::int64_t build, const char* name, const QString& keep_in) {
    const auto pattern = need(find_book_template("complete"));
    QElapsedTimer timer;
    timer.start();
    const auto facts =
        std::make_shared<const BookFacts>(need(gather_book(shop, build, Moment::present())));
    const double gathered = static_cast<double>(timer.restart()) / 1000.0;
    const auto renderer = Renderer::create();
    const auto pictures = std::make_shared<const BookPictures>(
        draw_book_pictures(*facts, renderer ? renderer->get() : nullptr));
    const double drawn = static_cast<double>(timer.restart()) / 1000.0;
    const CustomerBook book = customer_book(pattern, {facts, pictures, 0.0}, QPageSize::A4);
    const double laid_out = static_cast<double>(timer.restart()) / 1000.0;
    const auto pdf = need(book_pdf(book.layout, book.title));
    const double written = static_cast<double>(timer.elapsed()) / 1000.0;
    if (!keep_in.isEmpty()) {
        need(write_output(keep_in + u'/' + QString(name) + QStringLiteral(".pdf"), *pdf));
    }
    std::printf(
        "%-6s %5d pages %8.1f MB  read %5.1f s  drawn %5.1f s  laid out %5.1f s  written %5.1f s  "
        "together %5.1f s  peak %6.0f MiB\n",
        name, book.layout.page_count(), static_cast<double>(pdf->size()) / 1e6, gathered, drawn,
        laid_out, written, gathered + drawn + laid_out + written, peak_MiB());
}

/// Runs the window until `done`, and returns the longest time, ms, for which it did nothing else.
qint64 longest_pause_ms(const std::function<bool()>& done) {
    qint64 longest = 0;
    QElapsedTimer since;
    since.start();
    while (!done()) {
        since.restart();
        QCoreApplication::processEvents(QEventLoop::AllEvents, 1);
        longest = std::max(longest, since.elapsed());
        QThread::msleep(1);
    }
    return longest;
}

void measure_window(ShopSession& session, const QString& folder) {
    BookPage page;
    page.resize(1150, 740);
    page.show();
    QObject::connect(&page, &PlacePage::failed, [](const QString& why) {
        std::fprintf(stderr, "%s\n", qPrintable(why));
        std::exit(1);
    });
    QElapsedTimer timer;
    const auto say = [&](const char* what, qint64 pause) {
        std::printf("window: %-12s %5.1f s, stood still for %4lld ms at the most\n", what,
                    static_cast<double>(timer.elapsed()) / 1000.0, static_cast<long long>(pause));
    };
    timer.start();
    page.take(&session, large_build);
    say("opened", longest_pause_ms([&] { return page.is_ready(); }));
    timer.restart();
    page.write_book("complete", folder + "/at-the-window.pdf");
    say("written", longest_pause_ms([&] { return !page.is_writing(); }));
    timer.restart();
    page.hand_over_to(folder + "/given");
    say("handed over", longest_pause_ms([&] { return !page.is_writing(); }));
    page.take(nullptr, 0);
}

void run(const QString& keep_in) {
    const QTemporaryDir folder;
    const QString path = folder.filePath("shop.rodway");
    need(write_demo_shop(path));
    ShopSession session(need(ShopFile::open(path.toStdString())), "MH");
    Records records(session);
    fill_sheets(session, records);
    fill_pulls(records);
    fill_photos(session, folder.path(), records);
    records.write();
    // The small one first: memory is only ever counted at its most.
    measure(session.shop(), small_build, "small", keep_in);
    measure(session.shop(), large_build, "large", keep_in);
    measure_window(session, folder.path());
}

} // namespace
} // namespace rodway

int main(int argc, char** argv) {
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application(argc, argv);
    QCoreApplication::setApplicationVersion("bench"); // a hand-over keeps by which it was made
    try {
        rodway::run(argc > 1 ? QString::fromLocal8Bit(argv[1]) : QString());
    } catch (const std::exception& wrong) {
        std::fprintf(stderr, "%s\n", wrong.what());
        return 1;
    }
    return 0;
}
