package tickover.console;

import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressIndicator;
import javafx.scene.control.ScrollPane;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import tickover.console.model.ConsoleModel;
import tickover.console.model.ListenChoice;
import tickover.console.model.ListenModel;
import tickover.console.model.ListenModel.What;
import tickover.console.model.ListenSource;
import tickover.console.model.ListenState;
import tickover.drive.PartWords;
import tickover.session.Loudness;
import tickover.session.PartListening.How;

/** One part's sound alone, through the loudspeaker. */
final class ListenView implements View {
    private final ListenModel model;
    private final BorderPane root = new BorderPane();
    private final Label heard = Controls.label("", "big");
    private final Button after = new Button();
    private final Button before = new Button("_Before (B)");
    private final Button both = new Button("Before, _then after (T)");
    private final Button stop = new Button("_Stop (S)");
    private final Button save = new Button("Save as _WAV (W)");
    private final Label afterWords = Controls.label("");
    private final Label beforeWords = Controls.label("");
    private final VBox notes = new VBox(4);

    ListenView(ConsoleModel console) {
        this.model = console.listen();
        model.speaker(new SpeakerOut());
        VBox page =
                new VBox(
                        heard,
                        buttons(),
                        choices(),
                        FieldSheet.panel("What is heard", beforeWords, afterWords, notes),
                        Controls.label(
                                "Start at low volume. Tones below 100 Hz are lost on small"
                                        + " loudspeakers: use headphones.",
                                "soft"));
        page.getStyleClass().add("page");
        page.setMinWidth(0);
        ScrollPane scroll = new ScrollPane(page);
        scroll.setFitToWidth(true);
        root.setCenter(scroll);
        model.state().addListener((o, was, now) -> show(now));
        show(model.state().get());
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public Node first() {
        return after;
    }

    @Override
    public boolean pressed(KeyEvent e) {
        if (e.isShortcutDown() || e.isAltDown() || ProbeKeys.isTyping(root)) {
            return false;
        }
        ListenState now = model.state().get();
        switch (e.getCode()) {
            case A -> model.play(What.AFTER);
            case B -> model.play(What.BEFORE);
            case T -> model.play(What.BOTH);
            case S, ESCAPE -> model.stop();
            case W -> model.save();
            case SPACE -> {
                if (now.playing().isEmpty()) {
                    model.play(What.AFTER);
                } else {
                    model.stop();
                }
            }
            default -> {
                return false;
            }
        }
        return true;
    }

    private Node buttons() {
        after.setId("listen-after");
        after.getStyleClass().addAll("accent", "big");
        after.setOnAction(e -> model.play(What.AFTER));
        before.setOnAction(e -> model.play(What.BEFORE));
        both.setOnAction(e -> model.play(What.BOTH));
        stop.setId("listen-stop");
        stop.setOnAction(e -> model.stop());
        save.setId("listen-save");
        save.setOnAction(e -> model.save());
        ProgressIndicator busy = new ProgressIndicator();
        busy.setPrefSize(24, 24);
        busy.visibleProperty().bind(model.busy());
        busy.setAccessibleText("Taking the sound out");
        return new FlowPane(10, 6, after, before, both, stop, save, busy);
    }

    private Node choices() {
        GridPane grid = FieldSheet.grid();
        int row = 0;
        ChoiceBox<String> part =
                Controls.choice(
                        "Which part",
                        model.choice().parts(),
                        PartWords::plain,
                        model.choice().part());
        part.setId("listen-part");
        grid.addRow(row++, FieldSheet.whole("Part"), part);
        grid.addRow(
                row++,
                FieldSheet.whole("Visit"),
                Controls.choice(
                        "Which visit",
                        model.choice().visits(),
                        ListenSource::words,
                        model.choice().visit()));
        grid.addRow(
                row++,
                FieldSheet.whole("Capture"),
                Controls.choice(
                        "Which capture",
                        model.choice().captures(),
                        s -> s,
                        model.choice().capture()));
        grid.addRow(
                row++,
                FieldSheet.whole("Against"),
                Controls.choice(
                        "Which earlier visit",
                        model.choice().earliers(),
                        ListenSource::words,
                        model.choice().earlier()));
        grid.addRow(
                row++,
                FieldSheet.whole("Hear"),
                Controls.choice(
                        "What of the part is heard",
                        List.of(How.values()),
                        ListenChoice::howWords,
                        model.choice().how()::get,
                        model.choice().how()::set));
        grid.addRow(
                row,
                FieldSheet.whole("Equal"),
                Controls.choice(
                        "What is kept equal before and after",
                        List.of(Loudness.Keep.values()),
                        ListenView::keep,
                        model.choice().keep()::get,
                        model.choice().keep()::set));
        grid.getChildren().stream()
                .filter(ChoiceBox.class::isInstance)
                .forEach(n -> ((Region) n).setMinWidth(0));
        return FieldSheet.panel("What to listen to", grid);
    }

    private static String keep(Loudness.Keep keep) {
        return switch (keep) {
            case LOUDNESS -> "loudness: compare the character";
            case GAIN -> "gain: what is quieter stays quieter";
        };
    }

    private void show(ListenState state) {
        heard.setText(
                state.ready()
                        ? state.playing().isEmpty()
                                ? "One part alone: choose it, then press the space bar."
                                : "You hear " + state.playing() + "."
                        : "Nothing has been captured yet. Walk round the engine first (3 Round).");
        after.setText(state.hasBefore() ? "After (A)" : "Listen (A)");
        after.setDisable(!state.ready());
        before.setDisable(!state.hasBefore());
        both.setDisable(!state.hasBefore());
        save.setDisable(!state.ready());
        stop.setDisable(state.playing().isEmpty());
        afterWords.setText(
                state.after().isEmpty()
                        ? "It is told here once it was taken out."
                        : (state.hasBefore() ? "After: " : "") + state.after());
        beforeWords.setText((state.hasBefore() ? "Before: " : "") + state.before());
        beforeWords.setVisible(!state.before().isEmpty());
        beforeWords.setManaged(!state.before().isEmpty());
        notes.getChildren()
                .setAll(state.notes().stream().map(n -> (Node) Controls.label(n)).toList());
    }
}
