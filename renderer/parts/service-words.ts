/** What is said of a station where nobody is sent, and by what it is found. */
export const OUT_OF_SERVICE = 'out of service';
