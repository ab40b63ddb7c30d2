package tickover.console;

import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import tickover.console.model.ConsoleModel;
import tickover.console.model.Preferences;
import tickover.console.model.Preferences.Units;
import tickover.console.model.Screen;

/** The frame round every screen: the steps of the job above, what happened last below. */
final class Shell {
    private final ConsoleModel console;
    private final BorderPane root = new BorderPane();
    private final StackPane middle = new StackPane();
    private final Node keys = KeyHelp.page();
    private final Map<Screen, Supplier<View>> makers = new EnumMap<>(Screen.class);
    private final Map<Screen, View> views = new EnumMap<>(Screen.class);
    private final Map<Screen, ToggleButton> steps = new EnumMap<>(Screen.class);

    Shell(ConsoleModel console) {
        this.console = console;
        LivePulse pulse = new LivePulse(console.live());
        pulse.start();
        makers.put(Screen.VEHICLE, () -> new VehicleView(console));
        makers.put(Screen.DRIVE, () -> new DriveView(console));
        makers.put(Screen.ROUND, () -> new RoundView(console, pulse));
        makers.put(Screen.LIVE, () -> new LiveView(console, pulse));
        makers.put(Screen.FINDINGS, () -> new FindingsView(console));
        makers.put(Screen.HISTORY, () -> new HistoryView(console));
        makers.put(Screen.COMPARE, () -> new CompareView(console));
        makers.put(Screen.LISTEN, () -> new ListenView(console));
        makers.put(Screen.BENCH, () -> new BenchView(console, pulse));
        // In this order the Tab key goes through them.
        root.setTop(steps());
        root.setCenter(middle);
        root.setBottom(foot());
        console.screen().addListener((o, before, now) -> show(now));
        show(console.screen().get());
    }

    /** Makes the scene. Keys are heard by the scene, because the focus may be nowhere. */
    Scene scene(double width, double height) {
        Scene scene = new Scene(root, width, height);
        scene.addEventFilter(KeyEvent.KEY_PRESSED, this::pressed);
        Look.follow(scene, console.preferences());
        return scene;
    }

    private Node steps() {
        ToggleGroup group = new ToggleGroup();
        FlowPane bar = new FlowPane(6, 6);
        bar.getStyleClass().add("steps");
        for (Screen screen : makers.keySet()) {
            ToggleButton step = new ToggleButton(screen.number() + " " + screen.title());
            step.setId("step-" + screen.title().toLowerCase(Locale.ROOT));
            step.setToggleGroup(group);
            step.setTooltip(Controls.tip("Ctrl+" + screen.number()));
            step.setOnAction(
                    e -> {
                        go(screen);
                        mark();
                    });
            steps.put(screen, step);
            bar.getChildren().add(step);
        }
        return bar;
    }

    private Node foot() {
        Label message = Controls.label("");
        message.setId("message");
        message.textProperty().bind(console.message());
        HBox.setHgrow(message, Priority.ALWAYS);
        message.setMaxWidth(Double.MAX_VALUE);
        message.setMinHeight(Region.USE_PREF_SIZE);
        Label unit = Controls.label("", "head");
        unit.textProperty().bind(console.unit());
        unit.setMinWidth(Region.USE_PREF_SIZE);
        Preferences likes = console.preferences();
        Button smaller = tool("A−", "Smaller text, Ctrl+−");
        smaller.setOnAction(e -> likes.smallerText());
        Button larger = tool("A+", "Larger text, Ctrl++");
        larger.setOnAction(e -> likes.largerText());
        Button theme = tool("", "Light, dark or sunlight, Ctrl+L");
        theme.setOnAction(e -> likes.nextTheme());
        Runnable themed = () -> theme.setText(likes.theme().get().title());
        likes.theme().addListener((o, before, now) -> themed.run());
        themed.run();
        Button units = tool("", "Metric or imperial, Ctrl+U");
        units.setOnAction(e -> nextUnits());
        Runnable measured = () -> units.setText(likes.units().get().title());
        likes.units().addListener((o, before, now) -> measured.run());
        measured.run();
        Button keyHelp = tool("Keys", "The keys, F1");
        keyHelp.setOnAction(e -> help());
        MenuButton look = new MenuButton("Look");
        look.setMinWidth(Region.USE_PREF_SIZE);
        look.getItems()
                .addAll(
                        item("Smaller text, Ctrl+−", likes::smallerText),
                        item("Larger text, Ctrl++", likes::largerText),
                        item("Light, dark, sunlight, Ctrl+L", likes::nextTheme),
                        item("Metric, imperial, Ctrl+U", this::nextUnits));
        HBox foot = new HBox(unit, message, keyHelp, smaller, larger, theme, units, look);
        foot.getStyleClass().add("foot");
        // Large words leave no room for every tool beside the message.
        Runnable narrow =
                () -> {
                    boolean large = Look.isLarge(likes);
                    for (Button tool : List.of(smaller, larger, theme, units)) {
                        tool.setVisible(!large);
                        tool.setManaged(!large);
                    }
                    look.setVisible(large);
                    look.setManaged(large);
                };
        likes.textScale().addListener((o, before, now) -> narrow.run());
        narrow.run();
        return foot;
    }

    private static MenuItem item(String words, Runnable work) {
        MenuItem item = new MenuItem(words);
        item.setOnAction(e -> work.run());
        return item;
    }

    private static Button tool(String words, String name) {
        Button button = new Button(words);
        button.setAccessibleText(name);
        button.setTooltip(Controls.tip(name));
        button.setMinWidth(Region.USE_PREF_SIZE);
        return button;
    }

    private void nextUnits() {
        Units now = console.preferences().units().get();
        console.preferences().units().set(now == Units.METRIC ? Units.IMPERIAL : Units.METRIC);
    }

    private void show(Screen screen) {
        View view = views.computeIfAbsent(screen, s -> makers.get(s).get());
        middle.getChildren().setAll(view.node());
        dress();
        Platform.runLater(
                () -> {
                    view.first().requestFocus();
                    PageScroll.toTop(view.first());
                });
        mark();
    }

    /** What is made while it is laid out would show undressed in the first frame. */
    private void dress() {
        if (root.getScene() != null) {
            root.applyCss();
            root.layout();
            root.applyCss();
        }
    }

    /** Shows a screen, also if it is the one behind the keys. */
    private void go(Screen screen) {
        boolean behind = helping() && console.screen().get() == screen;
        console.go(screen);
        if (behind) {
            show(console.screen().get());
        }
    }

    private boolean helping() {
        return middle.getChildren().contains(keys);
    }

    /** The keys, in place of the screen; the same key or any step brings the screen back. */
    private void help() {
        if (helping()) {
            show(console.screen().get());
        } else {
            middle.getChildren().setAll(keys);
        }
    }

    private void mark() {
        steps.get(console.screen().get()).setSelected(true);
    }

    private void pressed(KeyEvent e) {
        if (e.getCode() == KeyCode.F1 || (e.getCode() == KeyCode.ESCAPE && helping())) {
            help();
            e.consume();
            return;
        }
        View view = views.get(console.screen().get());
        if ((view != null && view.pressed(e)) || (e.isShortcutDown() && everywhere(e))) {
            e.consume();
        }
    }

    /** Keys that mean the same on every screen. */
    private boolean everywhere(KeyEvent e) {
        Preferences likes = console.preferences();
        KeyCode code = e.getCode();
        Optional<Screen> asked =
                makers.keySet().stream()
                        .filter(s -> code == KeyCode.getKeyCode(Integer.toString(s.number())))
                        .findFirst();
        if (asked.isPresent()) {
            go(asked.get());
        } else if (code == KeyCode.PLUS || code == KeyCode.EQUALS || code == KeyCode.ADD) {
            likes.largerText();
        } else if (code == KeyCode.MINUS || code == KeyCode.SUBTRACT) {
            likes.smallerText();
        } else if (code == KeyCode.R) {
            console.report();
        } else if (code == KeyCode.P) {
            console.keepRoutingSketch();
        } else if (code == KeyCode.UP || code == KeyCode.DOWN) {
            PageScroll.by(middle, code == KeyCode.DOWN);
        } else if (code == KeyCode.L) {
            likes.nextTheme();
        } else if (code == KeyCode.U) {
            nextUnits();
        } else {
            return false;
        }
        return true;
    }
}
