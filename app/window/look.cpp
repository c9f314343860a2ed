#include "app/window/look.h"

namespace rodway {

QString look_sheet() {
    return QStringLiteral(
        "QLabel#title { font-size: 19px; font-weight: bold; padding: 2px 0; }"
        "QLabel#subtitle { font-size: 15px; font-weight: bold; }"
        "QLabel#figure { font-size: 26px; font-weight: bold; }"
        "QLabel#small { font-size: 11px; }"
        "QLabel#caution { border: 1px solid palette(mid); border-radius: 3px; padding: 4px 8px; }"
        "QLabel[trouble=\"true\"] { font-weight: bold; padding: 0 0 4px 0; }"
        "QLabel#trouble { font-weight: bold; padding: 0 0 4px 0; }"
        "QLabel#look_only { border: 2px solid palette(mid); border-radius: 4px; padding: 6px 9px; }"
        "QLabel#waiting { font-weight: bold; }"
        "QWidget#notice { border: 2px solid palette(highlight); border-radius: 4px; }"
        "QToolButton#place { font-size: 14px; font-weight: bold; }"
        "QPushButton { padding: 5px 8px; }"
        "QCheckBox { padding: 3px 0; font-size: 14px; }"
        "QListWidget#stage_rail, QListWidget#sheet_kinds, QListWidget#shop_sections,"
        "QListWidget#describe_steps, QListWidget#known_engines { font-size: "
        "14px; }"
        "QListWidget#steps, QListWidget#gates, QListWidget#cures, QListWidget#open_items,"
        "QListWidget#decisions, QListWidget#notes { font-size: 14px; }"
        "QListWidget#steps::indicator, QListWidget#notes::indicator { width: 20px; height: 20px; }"
        "QLabel#next_thing { font-size: 15px; }"
        "QLabel#step_state, QLabel#step_detail, QLabel#step_waits, QLabel#step_parts,"
        "QLabel#step_remarks { font-size: 13px; }"
        "QFrame#ask { border: 2px solid palette(highlight); border-radius: 4px; }"
        "QTabWidget#build_tabs > QTabBar { font-size: 14px; }");
}

} // namespace rodway
