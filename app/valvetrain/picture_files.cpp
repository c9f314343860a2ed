#include "app/valvetrain/picture_files.h"

#include <QBuffer>
#include <QCoreApplication>

#include "app/valvetrain/survey_csv.h"
#include "app/valvetrain/survey_pictures.h"
#include "app/words/clearance_words.h"
#include "app/work/output_file.h"

namespace rodway {
namespace {

struct PictureFiles {
    Q_DECLARE_TR_FUNCTIONS(PictureFiles)
};

/// Large enough to print across a page.
constexpr QSize drawing_size(1600, 900);
constexpr int drawing_font_px = 22;

bool wants_svg(const QString& path) {
    return path.endsWith(".svg", Qt::CaseInsensitive);
}

QFont drawing_font(const ViewSource& source) {
    QFont font = source.font;
    font.setPixelSize(drawing_font_px);
    return font;
}

Result<QByteArray> view_bytes(const ViewSource& source) {
    if (!source.view) {
        return Error{ErrorCode::missing_field, "engine", {}, {}, {}, {}};
    }
    const auto renderer = Renderer::create();
    if (!renderer) {
        return renderer.error();
    }
    const auto picture = offscreen_picture(**renderer, *source.view);
    return picture ? Result<QByteArray>(png_bytes(*picture)) : Result<QByteArray>(picture.error());
}

QByteArray tube_bytes(const ViewSource& source, const Palette& palette, bool svg) {
    const TubeContent content =
        tube_content(*source.model.engine(), source.model.lines(), source.tube);
    const TubeStyle style{palette, drawing_font(source)};
    return svg ? tube_svg(content, style, drawing_size)
               : png_bytes(tube_image(content, style, drawing_size));
}

QByteArray curve_bytes(const ViewSource& source, const Palette& palette, bool svg) {
    const ClearanceCurveContent content =
        survey_curves(*source.model.engine(), source.model.lines(), source.curve_valves);
    return svg ? clearance_curve_svg(content, palette, drawing_size)
               : png_bytes(clearance_curve_image(content, palette, drawing_size));
}

QByteArray plan_bytes(const ViewSource& source, const Palette& palette, bool svg) {
    const PlanContent content =
        survey_plan(*source.model.engine(), source.model.lines(), source.by_hand);
    const PlanStyle style{palette, drawing_font(source), false};
    return svg ? plan_svg(content, style, drawing_size)
               : png_bytes(plan_image(content, style, drawing_size));
}

std::vector<ValvePosition> every_valve(const ValvetrainModel& model) {
    std::vector<ValvePosition> valves;
    for (const ValveClearance& line : model.lines()) {
        valves.push_back(line.position);
    }
    return valves;
}

Result<QByteArray> bytes_of(ViewFile file, const ViewSource& source, bool svg) {
    const ValvetrainModel& model = source.model;
    if (!model.engine()) {
        return Error{ErrorCode::missing_field, "engine", {}, {}, {}, {}};
    }
    // Files are for paper: always on a light ground.
    const Palette palette = palette_for(Theme::light);
    switch (file) {
        case ViewFile::view:
            return view_bytes(source);
        case ViewFile::tube:
            return tube_bytes(source, palette, svg);
        case ViewFile::curve:
            return curve_bytes(source, palette, svg);
        case ViewFile::plan:
            return plan_bytes(source, palette, svg);
        case ViewFile::clearances:
            return survey_csv(*model.engine(), model.lines(), source.by_hand);
        case ViewFile::curves:
            return curves_csv(survey_curves(*model.engine(), model.lines(), every_valve(model)));
    }
    return QByteArray();
}

} // namespace

QByteArray png_bytes(const QImage& image) {
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "PNG");
    return bytes;
}

QString offered_name(ViewFile file, const std::optional<ValvePosition>& valve) {
    const QString of = valve ? QString::fromStdString(position_name(*valve)) : QString();
    switch (file) {
        case ViewFile::view:
            return PictureFiles::tr("view-%1.png").arg(of);
        case ViewFile::tube:
            return PictureFiles::tr("tube-%1.svg").arg(of);
        case ViewFile::curve:
            return PictureFiles::tr("curve-%1.svg").arg(of);
        case ViewFile::plan:
            return PictureFiles::tr("plan.svg");
        case ViewFile::clearances:
            return PictureFiles::tr("clearances.csv");
        case ViewFile::curves:
            return PictureFiles::tr("curves.csv");
    }
    return {};
}

QString name_filter(ViewFile file) {
    switch (file) {
        case ViewFile::view:
            return PictureFiles::tr("Picture (*.png)");
        case ViewFile::tube:
        case ViewFile::curve:
        case ViewFile::plan:
            return PictureFiles::tr("Drawing (*.svg);;Picture (*.png)");
        case ViewFile::clearances:
        case ViewFile::curves:
            return PictureFiles::tr("Table (*.csv)");
    }
    return {};
}

Result<Done> write_view_file(ViewFile file, const ViewSource& source, const QString& path) {
    const auto bytes = bytes_of(file, source, wants_svg(path));
    return bytes ? write_output(path, *bytes) : Result<Done>(bytes.error());
}

} // namespace rodway
