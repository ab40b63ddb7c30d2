package tickover.console;

import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.TitledPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import tickover.console.model.BenchVerdictWords;

/** What the bench says: the verdict, why, and the numbers behind it. */
final class BenchVerdictView {
    private final VBox page = new VBox();
    private final BenchStrip strip;
    private final Runnable note;
    private BenchVerdictWords shown;

    /**
     * @param note keeps the verdict with the vehicle
     */
    BenchVerdictView(Paint paint, Runnable note) {
        this.strip = new BenchStrip(paint);
        this.note = note;
        page.setSpacing(8);
        page.setMinWidth(0);
    }

    Node node() {
        return page;
    }

    void look(Paint paint, double em) {
        strip.look(paint, em);
    }

    void show(BenchVerdictWords words) {
        if (words.equals(shown)) {
            return;
        }
        shown = words;
        strip.show(words);
        page.getChildren().clear();
        if (words.headline().isEmpty()) {
            page.getChildren()
                    .addAll(
                            Controls.label("Verdict", "head"),
                            Controls.label(
                                    "It stands here after the first capture of the part: which"
                                            + " ring, ball or cage is damaged if one is, and"
                                            + " whether it runs true, has play or is rough."));
            return;
        }
        page.getChildren()
                .addAll(
                        Controls.label(words.headline(), "huge"),
                        Controls.label(words.howSure(), "head"));
        if (!words.odds().isEmpty()) {
            page.getChildren().add(odds(words));
        }
        for (BenchVerdictWords.Answer a : words.answers()) {
            page.getChildren().add(Controls.label(a.sign() + "  " + a.words() + ". " + a.text()));
        }
        if (!words.answers().isEmpty()) {
            Button keep = new Button("_Note it with the vehicle");
            keep.setId("bench-note");
            keep.setOnAction(e -> note.run());
            page.getChildren().add(keep);
        }
        page.getChildren().add(strip);
        words.evidence().forEach(s -> page.getChildren().add(Controls.label(s)));
        table("Against the known-good part", words.differences(), true);
        table("Levels; bands of ISO 15242-2, for comparison only", words.levels(), true);
        if (!words.notes().isEmpty()) {
            VBox notes = new VBox(4);
            words.notes().forEach(n -> notes.getChildren().add(Controls.label(n)));
            add("What limits this", notes, true);
        }
    }

    private static Node odds(BenchVerdictWords words) {
        GridPane grid = FieldSheet.grid();
        int row = 0;
        for (BenchVerdictWords.Odds o : words.odds()) {
            ProgressBar bar = new ProgressBar(o.probability());
            bar.setAccessibleText(o.words() + " " + o.percent());
            bar.setMaxWidth(Double.MAX_VALUE);
            GridPane.setHgrow(bar, Priority.ALWAYS);
            grid.addRow(row++, FieldSheet.whole(o.words()), FieldSheet.whole(o.percent()), bar);
        }
        return grid;
    }

    private void table(String title, List<BenchVerdictWords.Row> rows, boolean open) {
        if (rows.isEmpty()) {
            return;
        }
        GridPane grid = FieldSheet.grid();
        for (int i = 0; i < rows.size(); i++) {
            BenchVerdictWords.Row r = rows.get(i);
            Label value = FieldSheet.whole(r.value());
            value.getStyleClass().add("figure");
            VBox left = new VBox(FieldSheet.whole(r.name()), value);
            Label text = Controls.label(r.text(), "soft");
            GridPane.setHgrow(text, Priority.ALWAYS);
            grid.addRow(i, left, text);
        }
        add(title, grid, open);
    }

    private void add(String title, Region content, boolean open) {
        content.setMinWidth(0);
        TitledPane pane = new TitledPane(title, content);
        pane.setExpanded(open);
        pane.setMinWidth(0);
        page.getChildren().add(pane);
    }
}
