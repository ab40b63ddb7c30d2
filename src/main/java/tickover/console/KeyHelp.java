package tickover.console;

import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;

/** What the keys do. */
final class KeyHelp {
    /** Key and meaning in turn. */
    private static final List<String> KEYS =
            List.of(
                    "F1",
                    "these keys; F1 or Esc again: back",
                    "Ctrl+1 to 9",
                    "vehicle, drive, round, live, findings, history, before/after, bench, listen",
                    "Space, Page Down, F12",
                    "on round, live and bench: the probe's button. A foot switch that sends one of"
                            + " them works too",
                    "G at the bench",
                    "the next capture is of a known-good part, or of the part itself",
                    "A, B, T, S, W on listen",
                    "after, before, before then after, stop, save as WAV; space starts and stops",
                    "Tab, Shift+Tab",
                    "from control to control; Enter presses, arrows choose",
                    "Alt",
                    "underlines the letters that press a button together with Alt",
                    "Ctrl+Up, Ctrl+Down",
                    "scroll the page",
                    "Up, Down on the waterfall",
                    "choose the part whose lines are laid over it",
                    "Left, Right on the waterfall",
                    "from expected line to line, with Shift bin by bin: says whose it is; Esc ends",
                    "K on the waterfall",
                    "what moves, or what knocks: bearings show in their knocks",
                    "H, W on the waterfall",
                    "hear the chosen part through the loudspeaker, or silence it; save what was"
                            + " heard as WAV",
                    "F on the waterfall",
                    "the waterfall alone, or with trace and levels",
                    "+, − on the waterfall",
                    "more and fewer orders across it",
                    "Arrow keys on the sketch",
                    "move a pulley by 5 mm, with Shift by 1 mm; Delete removes it",
                    "Ctrl+S, Ctrl+Z, Ctrl+Y",
                    "on the drive: save, undo, redo",
                    "Ctrl+R",
                    "write the report of what findings or before/after show",
                    "Ctrl+P",
                    "write the drive's routing sketch, to print for reassembly",
                    "Ctrl++, Ctrl+−",
                    "larger and smaller text",
                    "Ctrl+L",
                    "light, dark, sunlight",
                    "Ctrl+U",
                    "metric or imperial lengths");

    private KeyHelp() {}

    static Node page() {
        GridPane grid = FieldSheet.grid();
        for (int i = 0; i < KEYS.size(); i += 2) {
            grid.addRow(
                    i / 2, Controls.label(KEYS.get(i), "head"), Controls.label(KEYS.get(i + 1)));
        }
        VBox box = new VBox(Controls.label("Keys", "huge"), grid);
        box.getStyleClass().add("page");
        ScrollPane scroll = new ScrollPane(box);
        scroll.setFitToWidth(true);
        return scroll;
    }
}
