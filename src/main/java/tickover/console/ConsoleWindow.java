package tickover.console;

import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import javafx.animation.PauseTransition;
import javafx.application.Application;
import javafx.geometry.Rectangle2D;
import javafx.stage.Stage;
import javafx.util.Duration;
import tickover.console.model.ConsoleModel;
import tickover.console.model.ConsoleOptions;
import tickover.console.model.Preferences;

/** The console's window and its life. */
public final class ConsoleWindow extends Application {
    private static final double USUAL_WIDTH = 1280;
    private static final double USUAL_HEIGHT = 800;
    private static final double SMALLEST_WIDTH = 800;
    private static final double SMALLEST_HEIGHT = 600;
    private static final double SETTLED_MS = 300;

    /** The toolkit makes the application itself, so the options wait here for it. */
    private static final AtomicReference<ConsoleOptions> ASKED = new AtomicReference<>();

    private final ScreenErrands errands = new ScreenErrands();
    private ConsoleModel console;
    private Stage window;

    /** Made by the toolkit. */
    public ConsoleWindow() {}

    /**
     * Opens the console and returns when its window is closed.
     *
     * @param options how it starts
     * @return 0
     */
    public static int open(ConsoleOptions options) {
        ASKED.set(options);
        Application.launch(ConsoleWindow.class);
        return 0;
    }

    @Override
    public void start(Stage stage) {
        window = stage;
        console = new ConsoleModel(ASKED.get(), errands);
        stage.setTitle("Tickover");
        stage.setScene(new Shell(console).scene(USUAL_WIDTH, USUAL_HEIGHT));
        stage.setMinWidth(SMALLEST_WIDTH);
        stage.setMinHeight(SMALLEST_HEIGHT);
        place(stage);
        stage.show();
        // Some window managers begin with the smallest size, whatever they were told before.
        PauseTransition settled = new PauseTransition(Duration.millis(SETTLED_MS));
        settled.setOnFinished(e -> place(stage));
        settled.play();
        console.begin();
    }

    /** Where it was last time, if that is still on a screen. */
    private void place(Stage stage) {
        Optional<Preferences.Place> last = console.preferences().place();
        if (last.isEmpty()) {
            Rectangle2D room = javafx.stage.Screen.getPrimary().getVisualBounds();
            stage.setWidth(Math.min(USUAL_WIDTH, room.getWidth()));
            stage.setHeight(Math.min(USUAL_HEIGHT, room.getHeight()));
            return;
        }
        Preferences.Place p = last.get();
        boolean visible =
                javafx.stage.Screen.getScreens().stream()
                        .map(javafx.stage.Screen::getVisualBounds)
                        .anyMatch(b -> b.contains(new Rectangle2D(p.x(), p.y(), 100, 40)));
        if (visible) {
            stage.setX(p.x());
            stage.setY(p.y());
            stage.setWidth(p.width());
            stage.setHeight(p.height());
        }
    }

    @Override
    public void stop() {
        if (console != null) {
            console.close();
            try {
                console.preferences()
                        .save(
                                new Preferences.Place(
                                        window.getX(),
                                        window.getY(),
                                        window.getWidth(),
                                        window.getHeight()));
            } catch (IOException e) {
                // Preferences are a convenience; a full disk must not keep a window from closing.
            }
        }
        errands.close();
    }
}
