/** The first stop of the keyboard: from the bar straight to what the screen is about. */
export const SkipLink = () => (
  <button
    type="button"
    className="skip"
    onClick={() => {
      const main = document.querySelector('main');
      if (main === null) return;
      main.tabIndex = -1;
      main.focus();
    }}
  >
    To the work
  </button>
);
