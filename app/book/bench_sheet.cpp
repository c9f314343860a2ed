#include "app/book/bench_sheet.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QPdfWriter>

#include "app/book/page.h"
#include "app/valvetrain/survey_pictures.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/work/output_file.h"

namespace rodway {
namespace {

struct BenchSheet {
    Q_DECLARE_TR_FUNCTIONS(BenchSheet)
};

} // namespace

void paint_bench_sheet(QPagedPaintDevice& device, const Build& build, const Engine& engine) {
    QPainter painter(&device);
    const double scale = device.logicalDpiX() / 96.0;
    painter.scale(scale, scale);
    Page page(painter, QRectF(0, 0, device.width() / scale, device.height() / scale));
    page.heading(BenchSheet::tr("Pushrod clearance, found by hand"), 14.0);
    page.paragraph(
        BenchSheet::tr("%1 for %2. %3, turns %4.")
            .arg(QString::fromStdString(build.name), QString::fromStdString(build.customer),
                 QString::fromStdString(build.engine), words::turning(engine.layout.turning)),
        10.0);
    page.paragraph(BenchSheet::tr("Gaskets: ____________  Head torque: ______  Lash, cold: _____ / "
                                  "_____  Rods: __________  "
                                  "Date: __________  Initials: ____"),
                   9.0);
    page.paragraph(
        BenchSheet::tr(
            "Limit %1. Write what goes and what doesn't (.008 goes, .010 no: .008-.010), or "
            "“touch”. 12 o'clock is the front of the engine, seen from the rocker down.")
            .arg(words::inches(engine.rod_clearance_limit_mm)),
        9.0);
    page.move_down(4.0);
    const double plan_height = std::min(230.0, page.room() * 0.28);
    PlanStyle style{palette_for(Theme::light), painter.font(), false};
    style.palette.paper = Qt::white;
    style.font.setPixelSize(12);
    paint_cylinder_plan(painter,
                        QRectF(page.area().left(), page.y(), page.area().width(), plan_height),
                        survey_plan(engine, {}, {}), style);
    page.move_down(plan_height + 6.0);

    const double caution =
        page.paragraph_height(words::caution("barring_over"), 8.0, page.area().width()) + 8.0;
    const double rows_room = page.room() - caution;
    const double row_height =
        std::clamp((rows_room - 8.0) / static_cast<double>(engine.trains.size() + 1), 15.0, 40.0);
    std::vector<std::vector<QString>> rows;
    for (const Train& train : engine.trains) {
        rows.push_back({words::valve(train.position)});
    }
    page.table({{BenchSheet::tr("Valve"), 50},
                {BenchSheet::tr("On the heel"), 100},
                {BenchSheet::tr("At full lift"), 100},
                {BenchSheet::tr("Least"), 100},
                {BenchSheet::tr("Wall or clock"), 100},
                {BenchSheet::tr("Which end"), 90},
                {BenchSheet::tr("How found"), 100},
                {BenchSheet::tr("Initials"), 62}},
               rows, row_height);
    page.paragraph(words::caution("barring_over"), 8.0);
}

Result<Done> write_bench_sheet(const Build& build, const Engine& engine, const QString& path) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    {
        QPdfWriter writer(&buffer);
        writer.setPageSize(QPageSize(QPageSize::A4));
        writer.setPageMargins(QMarginsF(12, 12, 12, 12), QPageLayout::Millimeter);
        writer.setResolution(384);
        writer.setTitle(BenchSheet::tr("Bench sheet: %1").arg(QString::fromStdString(build.name)));
        writer.setCreator("Rodway");
        paint_bench_sheet(writer, build, engine);
    }
    return write_output(path, bytes);
}

} // namespace rodway
