package tickover.console.model;

/**
 * Whether a simulated probe is still on its way to where it is meant to be. A press meanwhile is
 * not lost: it counts on arrival.
 */
final class Aiming {
    private int underWay;
    private boolean pressed;

    /**
     * The probe sets out.
     *
     * @param travel takes its time
     * @param there what is to be done on arrival
     * @param press the button
     */
    void move(ConsoleModel console, Runnable travel, Runnable there, Runnable press) {
        underWay++;
        console.errands()
                .send(
                        () -> {
                            travel.run();
                            return there;
                        },
                        arrived -> {
                            arrived.run();
                            underWay = Math.max(0, underWay - 1);
                            if (underWay == 0 && pressed) {
                                pressed = false;
                                press.run();
                            }
                        },
                        why -> {
                            underWay = Math.max(0, underWay - 1);
                            console.say(why);
                        });
    }

    /**
     * The button is pressed.
     *
     * @return whether that has to wait
     */
    boolean holdsBack() {
        pressed = underWay > 0;
        return pressed;
    }

    /** What was begun counts no more. */
    void forget() {
        underWay = 0;
        pressed = false;
    }
}
