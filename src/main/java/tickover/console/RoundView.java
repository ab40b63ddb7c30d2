package tickover.console;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javafx.animation.Animation;
import javafx.animation.KeyFrame;
import javafx.animation.Timeline;
import javafx.beans.binding.Bindings;
import javafx.collections.FXCollections;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SplitPane;
import javafx.scene.control.TextField;
import javafx.scene.control.TitledPane;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.Duration;
import tickover.console.EngineMap.Mark;
import tickover.console.model.ConsoleModel;
import tickover.console.model.LiveState;
import tickover.console.model.Numbers;
import tickover.console.model.RoundModel;
import tickover.console.model.RoundState;
import tickover.console.model.Screen;
import tickover.console.model.Touch;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.drive.PartWords;

/** The walk round the engine: the drawing is the map, one large sentence says what to do now. */
final class RoundView implements View {
    private static final double TICK_MS = 100;

    private final ConsoleModel console;
    private final RoundModel model;
    private final BorderPane root = new BorderPane();
    private final EngineMap map = new EngineMap();
    private final Label instruction = Controls.label("", "big");
    private final ProgressBar progress = new ProgressBar(0);
    private final Label speed = Controls.label("", "big");
    private final Label level = Controls.label("", "big");
    private final Label line = Controls.label("", "soft");
    private final TraceStrip trace;
    private final PartBars bars;
    private final QualityLines quality = new QualityLines(false);
    private final VBox touches = new VBox(2);
    private final VBox cautions = new VBox(4);
    private final Button press = new Button();
    private final Button finish = new Button("_Finish the round");
    private final CueSound sound = new CueSound();
    private List<Touch> shownTouches = List.of();
    private int shownAimed = -1;
    private final VBox right = new VBox();
    private Node readings;

    RoundView(ConsoleModel console, LivePulse pulse) {
        this.console = console;
        this.model = console.round();
        this.trace =
                new TraceStrip(
                        Paint.of(console.preferences().theme().get()), console.live()::frame);
        this.bars = new PartBars(this::follow);
        map.onChosen(model::choose);
        Node says = complaint();
        right.getChildren().setAll(buttons(), instruction, progress, reading(), says);
        TitledPane before = new TitledPane("Before the engine runs", cautions);
        before.setExpanded(true);
        TitledPane list = new TitledPane("Points of this round", touches);
        list.setExpanded(true);
        if (!console.options().simulated() && !console.options().replays()) {
            right.getChildren().add(LinePanel.of(console, true));
        }
        right.getChildren().addAll(before, list);
        console.round()
                .state()
                .addListener(
                        (o, was, now) -> {
                            if (was.running() != now.running()) {
                                order(now.running(), says, before, list);
                            }
                        });
        right.getStyleClass().add("page");
        ScrollPane scroll = new ScrollPane(right);
        scroll.setFitToWidth(true);
        SplitPane split = new SplitPane(map, scroll);
        split.setDividerPositions(0.5);
        root.setCenter(split);
        model.state().addListener((o, was, now) -> show(now));
        model.cue().addListener((o, was, now) -> sound.play(now));
        Timeline clock = new Timeline(new KeyFrame(Duration.millis(TICK_MS), e -> model.tick()));
        clock.setCycleCount(Animation.INDEFINITE);
        clock.play();
        follow(pulse);
        show(model.state().get());
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
        boolean button = ProbeKeys.isPress(e, root);
        if (button) {
            model.press();
        }
        return button;
    }

    /** Cautions come first before the engine runs, and what is done and good after that. */
    private void order(boolean running, Node says, Node cautions, Node points) {
        says.setVisible(!running);
        says.setManaged(!running);
        right.getChildren().removeAll(cautions, points);
        right.getChildren().addAll(running ? List.of(points, cautions) : List.of(cautions, points));
    }

    private Node buttons() {
        press.setId("press");
        press.getStyleClass().addAll("accent", "big");
        press.setOnAction(e -> model.press());
        finish.setId("finish-round");
        finish.setOnAction(e -> model.finish());
        FlowPane buttons = new FlowPane(10, 6, press, finish);
        if (console.options().replays()) {
            buttons.getChildren().add(pace());
        }
        return buttons;
    }

    /** How fast a recording runs. */
    private Node pace() {
        List<Double> paces = new ArrayList<>(List.of(1.0, 2.0, 4.0, 8.0));
        double asked = console.options().pace();
        if (!paces.contains(asked)) {
            paces.add(asked);
        }
        ChoiceBox<Double> pace = new ChoiceBox<>(FXCollections.observableArrayList(paces));
        pace.setId("pace");
        pace.setAccessibleText("How fast the recording runs");
        pace.setConverter(new Spoken<>(p -> Numbers.text(p) + " times as fast"));
        pace.setValue(asked);
        pace.valueProperty().addListener((o, was, now) -> model.pace(now));
        return pace;
    }

    private Node reading() {
        progress.setMaxWidth(Double.MAX_VALUE);
        progress.setAccessibleText("How much of the capture is done");
        speed.setMinWidth(Region.USE_PREF_SIZE);
        FlowPane numbers = new FlowPane(24, 0, speed, level);
        VBox felt = new VBox(6, trace, quality, bars);
        felt.managedProperty().bind(felt.visibleProperty());
        felt.visibleProperty()
                .bind(
                        Bindings.createBooleanBinding(
                                () -> console.live().state().get().running(),
                                console.live().state()));
        VBox box = new VBox(4, numbers, line, felt);
        box.getStyleClass().add("panel");
        box.managedProperty().bind(box.visibleProperty());
        readings = box;
        return box;
    }

    /** Draws what the probe feels, as long as this screen shows. */
    private void follow(LivePulse pulse) {
        pulse.draws(root, () -> trace.drawIfDue(false));
        console.live().state().addListener((o, was, now) -> showLive(now));
        console.preferences().theme().addListener((o, was, now) -> look());
        console.preferences().textScale().addListener((o, was, now) -> look());
        look();
    }

    private void look() {
        trace.look(
                Paint.of(console.preferences().theme().get()),
                Look.textPixels(console.preferences()));
    }

    private void showLive(LiveState now) {
        quality.show(now);
        bars.show(now);
    }

    /** A part's lines are laid over the waterfall. */
    private void follow(String part) {
        if (!console.live().state().get().chosen().equals(part)) {
            console.live().choose(part);
        }
        console.go(Screen.LIVE);
    }

    private Node complaint() {
        TextField field = new TextField();
        field.setId("complaint");
        field.setAccessibleText("What the driver says");
        field.setPromptText("What the driver says");
        field.textProperty().bindBidirectional(model.complaint());
        field.disableProperty()
                .bind(
                        Bindings.createBooleanBinding(
                                () -> model.state().get().running(), model.state()));
        return field;
    }

    private void show(RoundState state) {
        instruction.setText(state.instruction());
        progress.setProgress(state.progressRatio());
        progress.setVisible(state.running());
        readings.setVisible(state.running());
        speed.setText(state.speed());
        level.setText(state.level());
        line.setText(state.line());
        press.setText(state.pressWords());
        finish.setDisable(!state.running() || state.capturing());
        if (state.touches().equals(shownTouches) && state.aimed() == shownAimed) {
            return;
        }
        shownTouches = state.touches();
        shownAimed = state.aimed();
        cautions.getChildren().setAll(state.cautions().stream().map(c -> caution(c)).toList());
        list(state);
        map(state);
    }

    private static Node caution(String sentence) {
        return Controls.label("!  " + sentence);
    }

    private void list(RoundState state) {
        List<Node> rows = new ArrayList<>();
        for (int i = 0; i < state.touches().size(); i++) {
            Touch t = state.touches().get(i);
            int index = i;
            Button row = new Button(mark(t, i == state.aimed()) + words(t));
            row.setWrapText(true);
            row.setMaxWidth(Double.MAX_VALUE);
            row.setAlignment(Pos.CENTER_LEFT);
            row.getStyleClass().add("flat");
            row.setOnAction(e -> model.choose(index));
            rows.add(row);
        }
        touches.getChildren().setAll(rows);
    }

    private static String mark(Touch t, boolean aimed) {
        String sign =
                switch (t.state()) {
                    case OPEN -> "○  ";
                    case RUNNING -> "●  ";
                    case CHECKING -> "…  ";
                    case GOOD -> "✓  ";
                    case REPEAT -> "✗  ";
                };
        return (aimed ? "▶ " : "   ") + sign;
    }

    private static String words(Touch t) {
        String load = t.condition().equals(Condition.UNLOADED) ? "" : ", " + t.condition();
        String why = t.why().isEmpty() ? "" : "; again, " + t.why();
        return PartWords.plain(t.point()) + load + why;
    }

    private void map(RoundState state) {
        Map<String, EngineMap.Said> said = new HashMap<>();
        List<String> others = new ArrayList<>();
        for (int i = 0; i < state.touches().size(); i++) {
            Touch t = state.touches().get(i);
            boolean pulley = console.vehicle().flatMap(v -> v.pulley(t.point())).isPresent();
            if (!pulley && !others.contains(t.point())) {
                others.add(t.point());
            }
            boolean aimed = i == state.aimed();
            if (aimed || !said.containsKey(t.point())) {
                said.put(t.point(), said(t, aimed));
            }
        }
        console.vehicle().ifPresent(v -> map.show(DriveModel.of(v), others, said));
    }

    private static EngineMap.Said said(Touch t, boolean aimed) {
        return switch (t.state()) {
            case RUNNING -> new EngineMap.Said(Mark.NEXT, "recording");
            case CHECKING -> new EngineMap.Said(Mark.NONE, "being checked");
            case GOOD -> new EngineMap.Said(aimed ? Mark.NEXT : Mark.GOOD, "good");
            case REPEAT -> new EngineMap.Said(aimed ? Mark.NEXT : Mark.REPEAT, "repeat");
            case OPEN -> aimed ? new EngineMap.Said(Mark.NEXT, "next") : EngineMap.Said.NOTHING;
        };
    }
}
