package tickover.console;

import java.util.ArrayList;
import java.util.List;
import javafx.animation.Animation;
import javafx.animation.KeyFrame;
import javafx.animation.Timeline;
import javafx.geometry.HPos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.RadioButton;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SplitPane;
import javafx.scene.control.TextField;
import javafx.scene.control.TitledPane;
import javafx.scene.control.ToggleGroup;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.Duration;
import tickover.console.model.BearingWords;
import tickover.console.model.BenchModel;
import tickover.console.model.BenchPart;
import tickover.console.model.BenchSetup;
import tickover.console.model.BenchState;
import tickover.console.model.BenchTakeRow;
import tickover.console.model.ConsoleModel;
import tickover.console.model.RoundState;
import tickover.diagnose.Mount;
import tickover.drive.Ring;

/** One removed part, turned alone: what it is, the captures, and the verdict beside them. */
final class BenchView implements View {
    private static final double TICK_MS = 100;

    private final ConsoleModel console;
    private final BenchModel model;
    private final BorderPane root = new BorderPane();
    private final FieldSheet sheet = new FieldSheet();
    private final Label instruction = Controls.label("", "big");
    private final ProgressBar progress = new ProgressBar(0);
    private final Label speed = Controls.label("", "big");
    private final Label level = Controls.label("", "big");
    private final Label line = Controls.label("", "soft");
    private final TraceStrip trace;
    private Node felt;
    private final Button press = new Button();
    private final Button finish = new Button("_Finish at the bench");
    private final RadioButton own = new RadioButton("the part");
    private final RadioButton good = new RadioButton("a _known-good one");
    private final VBox takes = new VBox(4);
    private final BenchVerdictView verdict;
    private final CueSound sound = new CueSound();

    BenchView(ConsoleModel console, LivePulse pulse) {
        this.console = console;
        this.model = console.bench();
        Paint paint = Paint.of(console.preferences().theme().get());
        this.trace = new TraceStrip(paint, console.live()::frame);
        this.verdict = new BenchVerdictView(paint, model::keepNote);
        VBox cautions = new VBox(4);
        BenchSetup.cautions().forEach(c -> cautions.getChildren().add(Controls.label("!  " + c)));
        Node what = what();
        Node captures = list();
        TitledPane before = new TitledPane("Before anything turns", cautions);
        before.setExpanded(true);
        before.setMinWidth(0);
        VBox left = new VBox(buttons(), instruction, progress, reading(), what, captures);
        model.state()
                .addListener(
                        (o, was, now) -> {
                            if (was.running() != now.running()) {
                                // What is captured matters more once it runs.
                                left.getChildren().remove(captures);
                                int at = left.getChildren().indexOf(what) + (now.running() ? 0 : 1);
                                left.getChildren().add(at, captures);
                            }
                        });
        if (!console.options().simulated() && !console.options().replays()) {
            left.getChildren().add(LinePanel.of(console, false));
        }
        left.getStyleClass().add("page");
        left.setMinWidth(0);
        VBox right = new VBox(verdict.node(), before);
        right.getStyleClass().add("page");
        SplitPane split = new SplitPane(scrolled(left), scrolled(right));
        split.setDividerPositions(0.5);
        root.setCenter(split);
        pulse.draws(root, () -> trace.drawIfDue(false));
        console.preferences().theme().addListener((o, was, now) -> look());
        console.preferences().textScale().addListener((o, was, now) -> look());
        model.state().addListener((o, was, now) -> show(now));
        model.cue().addListener((o, was, now) -> sound.play(now));
        Timeline clock = new Timeline(new KeyFrame(Duration.millis(TICK_MS), e -> model.tick()));
        clock.setCycleCount(Animation.INDEFINITE);
        clock.play();
        look();
        show(model.state().get());
    }

    private static Node scrolled(Node page) {
        ScrollPane scroll = new ScrollPane(page);
        scroll.setFitToWidth(true);
        return scroll;
    }

    private void look() {
        Paint paint = Paint.of(console.preferences().theme().get());
        double em = Look.textPixels(console.preferences());
        trace.look(paint, em);
        verdict.look(paint, em);
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public Node first() {
        return press;
    }

    @Override
    public boolean pressed(KeyEvent e) {
        if (ProbeKeys.isPress(e, root)) {
            model.press();
            return true;
        }
        boolean typing = ProbeKeys.isTyping(root);
        if (e.getCode() == KeyCode.G && !typing && !e.isShortcutDown() && !e.isAltDown()) {
            model.aim(!model.state().get().aimsGood());
            return true;
        }
        return false;
    }

    private Node buttons() {
        press.setId("bench-press");
        press.getStyleClass().addAll("accent", "big");
        press.setOnAction(e -> model.press());
        finish.setId("finish-bench");
        finish.setOnAction(e -> model.finish());
        return new FlowPane(10, 6, press, finish);
    }

    private Node reading() {
        progress.setMaxWidth(Double.MAX_VALUE);
        progress.setAccessibleText("How much of the capture is done");
        speed.setMinWidth(Region.USE_PREF_SIZE);
        VBox box = new VBox(4, new FlowPane(24, 0, speed, level), line, trace);
        box.getStyleClass().add("panel");
        box.managedProperty().bind(box.visibleProperty());
        felt = box;
        return box;
    }

    private Node what() {
        ChoiceBox<BenchPart> part = new ChoiceBox<>(model.setup().parts());
        part.setId("bench-part");
        part.setAccessibleText("Which part");
        part.setConverter(new Spoken<>(BenchPart::words));
        part.valueProperty().bindBidirectional(model.setup().part());
        part.setMinWidth(0);
        TextField name = text("What the part is called", 14, model.setup().name());
        TextField bearing = text("Its bearing", 18, model.setup().bearing());
        bearing.setId("bench-bearing");
        bearing.setTooltip(Controls.tip(BearingWords.HELP));
        ChoiceBox<Ring> ring =
                choice(
                        "Which ring turns",
                        List.of(Ring.values()),
                        BenchView::ring,
                        model.setup().ring());
        ChoiceBox<BenchSetup.SpeedFrom> from =
                choice(
                        "Where the speed comes from",
                        List.of(BenchSetup.SpeedFrom.values()),
                        BenchSetup.SpeedFrom::words,
                        model.setup().speed());
        from.setId("bench-speed");
        TextField rpm = text("Speed of the turning ring, rpm", 6, model.setup().rpm());
        rpm.setId("bench-rpm");
        Label unit = FieldSheet.whole("rpm");
        for (Node n : List.of(rpm, unit)) {
            n.visibleProperty().bind(model.setup().speed().isEqualTo(BenchSetup.SpeedFrom.GIVEN));
            n.managedProperty().bind(n.visibleProperty());
        }
        ChoiceBox<Mount> mount =
                choice(
                        "How the probe is held",
                        List.of(Mount.values()),
                        RoundState::held,
                        model.setup().mount());
        GridPane grid = FieldSheet.grid();
        int row = 0;
        grid.addRow(row++, FieldSheet.whole("Part"), part);
        grid.addRow(row++, FieldSheet.whole("Called"), name);
        grid.addRow(row++, FieldSheet.whole("Bearing"), bearing);
        Label help = Controls.label(BearingWords.HELP, "soft");
        grid.add(help, 0, row++, 2, 1);
        grid.addRow(row++, FieldSheet.whole("Turns"), ring);
        grid.addRow(row++, FieldSheet.whole("Speed"), new FlowPane(8, 4, from, rpm, unit));
        grid.addRow(row, FieldSheet.whole("Probe"), mount);
        grid.getChildren().forEach(n -> GridPane.setHalignment(n, HPos.LEFT));
        for (Region field : List.of(part, name, bearing, ring, from, mount)) {
            field.setMinWidth(0);
        }
        return FieldSheet.panel("What is on the bench", grid);
    }

    private TextField text(
            String label, int columns, javafx.beans.property.StringProperty property) {
        TextField field = sheet.text(label, columns, property::get, property::set);
        property.addListener((o, was, now) -> sheet.refresh());
        return field;
    }

    private <T> ChoiceBox<T> choice(
            String label,
            List<T> values,
            java.util.function.Function<T, String> words,
            javafx.beans.property.ObjectProperty<T> property) {
        ChoiceBox<T> box = sheet.choice(label, values, words, property::get, property::set);
        property.addListener((o, was, now) -> sheet.refresh());
        return box;
    }

    private static String ring(Ring ring) {
        return switch (ring) {
            case INNER -> "the inner ring, on a shaft";
            case OUTER -> "the outer ring, on its bolt";
        };
    }

    private Node list() {
        ToggleGroup next = new ToggleGroup();
        own.setToggleGroup(next);
        good.setToggleGroup(next);
        good.setId("bench-good");
        good.setTooltip(Controls.tip("G"));
        own.setOnAction(e -> model.aim(false));
        good.setOnAction(e -> model.aim(true));
        return FieldSheet.panel(
                "Captures",
                Controls.label(
                        "A known-good part of the same kind, first or later, same bench and speed,"
                                + " lets roughness and running out of true be told at all."),
                new FlowPane(12, 4, FieldSheet.whole("Next (G):"), own, good),
                takes);
    }

    private void show(BenchState state) {
        instruction.setText(state.instruction());
        progress.setProgress(state.progressRatio());
        progress.setVisible(state.running());
        speed.setText(state.speed());
        level.setText(state.level());
        line.setText(state.line());
        press.setText(state.pressWords());
        finish.setDisable(!state.running() || state.capturing());
        own.setSelected(!state.aimsGood());
        good.setSelected(state.aimsGood());
        felt.setVisible(state.running());
        List<String> rows = new ArrayList<>();
        state.takes().forEach(t -> rows.add(words(t)));
        if (rows.isEmpty()) {
            rows.add("None yet.");
        }
        while (takes.getChildren().size() < rows.size()) {
            takes.getChildren().add(Controls.label(""));
        }
        while (takes.getChildren().size() > rows.size()) {
            takes.getChildren().remove(rows.size());
        }
        for (int i = 0; i < rows.size(); i++) {
            ((Label) takes.getChildren().get(i)).setText(rows.get(i));
        }
        verdict.show(state.verdict());
    }

    private static String words(BenchTakeRow t) {
        String sign =
                switch (t.state()) {
                    case OPEN -> "○  ";
                    case RUNNING -> "●  ";
                    case CHECKING -> "…  ";
                    case GOOD -> "✓  ";
                    case REPEAT -> "✗  ";
                };
        String what = t.knownGood() ? "known-good " + t.part() : t.part();
        return sign + t.number() + "  " + what + (t.why().isEmpty() ? "" : "; again, " + t.why());
    }
}
