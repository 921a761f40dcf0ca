/** Version of the library; a check compares it with package.json. */
export const VERSION = "0.6.0";
